import { isUtf8 } from 'node:buffer'
import type { Encoding } from './mapping.js'

/** Bytes of a file that is still taken over; some years of counts of a large district are a tenth of it. */
export const largestFile = 50 * 1024 * 1024

export type Decoded = { readonly text: string } | { readonly refused: string }

/**
 * The text of a file in the encoding that its mapping states, line ends made alike, without its byte order mark. Which
 * encoding it is in is never guessed: letters would silently become others.
 */
export function csvText(bytes: Uint8Array, encoding: Encoding): Decoded {
  if (bytes.length > largestFile)
    return {
      refused: `it is ${bytes.length} bytes; at most ${largestFile} are read at once. Split it by year.`,
    }
  const decoded = decode(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength), encoding)
  if ('refused' in decoded) return decoded
  const text = decoded.text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n')
  if (text.trim() === '') return { refused: 'it is empty.' }
  return { text }
}

function decode(bytes: Buffer, encoding: Encoding): Decoded {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    return { refused: 'it is UTF-16. Save it as CSV in UTF-8.' }
  if (bytes.includes(0)) return { refused: 'it is no text. Save the sheet as CSV.' }
  if (encoding === 'utf-8') {
    return isUtf8(bytes)
      ? { text: bytes.toString('utf8') }
      : {
          refused:
            'it is not valid UTF-8. Save it as CSV in UTF-8; or, if it is older, say `encoding: latin-1` (or `windows-1252`) in the mapping.',
        }
  }
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf)
    return { refused: `it begins with the mark of UTF-8, and the mapping says \`encoding: ${encoding}\`.` }
  if (encoding === 'windows-1252') return { text: fromWindows(bytes.toString('latin1')) }
  // Latin-1 has no letters from 0x80 to 0x9f; Windows put its curly quotes and dashes there.
  return bytes.some((byte) => byte >= 0x80 && byte <= 0x9f)
    ? {
        refused:
          'it holds bytes that are no letters in Latin-1. Say `encoding: windows-1252` in the mapping.',
      }
    : { text: bytes.toString('latin1') }
}

/**
 * Letters of Windows-1252 from 0x80 to 0x9f; five of them are none (WHATWG Encoding Standard, index windows-1252). Node's
 * own decoder of that name takes them for Latin-1 in some versions.
 */
const windowsLetters = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ'

const fromWindows = (latin: string) =>
  latin.replace(/[\u0080-\u009f]/g, (letter) => windowsLetters[letter.charCodeAt(0) - 0x80] ?? letter)
