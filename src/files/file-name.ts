import { isUtf8 } from 'node:buffer'

/**
 * The name of a file as text. A byte that is no UTF-8 is shown as `\xe9`: such a name stays apart from every other and is
 * none that a record can have, so it is told as stray, where a replacement character would make two names one.
 */
export function fileNameOf(bytes: Uint8Array): string {
  if (isUtf8(bytes)) return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('utf8')
  let name = ''
  for (let at = 0; at < bytes.length; ) {
    const length = lengthOfLetter(bytes, at)
    if (length === 0) name += `\\x${(bytes[at] ?? 0).toString(16).padStart(2, '0')}`
    else name += Buffer.from(bytes.subarray(at, at + length)).toString('utf8')
    at += Math.max(length, 1)
  }
  return name
}

/** How many bytes, 1 to 4, make up the letter that begins here; 0 when none begins here. */
function lengthOfLetter(bytes: Uint8Array, at: number): number {
  for (let length = 1; length <= 4 && at + length <= bytes.length; length++)
    if (isUtf8(bytes.subarray(at, at + length))) return length
  return 0
}
