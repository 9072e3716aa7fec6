// Reads lines ended by a newline, and by nothing else that some runtimes take for an end; it must never hold more of one than was asked for.
import { StringDecoder } from 'node:string_decoder'

/** @param most characters of a line; of a longer one its start comes, one character too long */
export async function* eachLine(input: AsyncIterable<Buffer | string>, most: number): AsyncGenerator<string> {
  const decoder = new StringDecoder('utf8')
  let rest = ''
  for await (const chunk of input) {
    const [first, ...others] = (typeof chunk === 'string' ? chunk : decoder.write(chunk)).split('\n')
    rest = (rest + first).slice(0, most + 1)
    for (const next of others) {
      yield rest.replace(/\r$/, '')
      rest = next.slice(0, most + 1)
    }
  }
  rest += decoder.end()
  if (rest !== '') yield rest
}
