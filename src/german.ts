// gridreason/german: the German wording, an entry of its own, so that apps in other languages do not carry it.
export { GERMAN } from './explain/words/german/index.js'
