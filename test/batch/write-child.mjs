/** A run of `writeGrades` to be killed: door, source, output, options. */
const [door, source, out, options] = process.argv.slice(2)
const { writeGrades } = await import(door)
await writeGrades(source, out, JSON.parse(options))
