/** What a server answers, if it is not that there is nothing. */
export async function fetched(url: URL): Promise<Uint8Array> {
  const answer = await fetch(url)
  if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`)
  return new Uint8Array(await answer.arrayBuffer())
}
