/** Version of this package, as package.json has it; a test holds the two together. */
export const LIBRARY_VERSION = '0.1.0'
