import { expect, it } from 'vitest'
import { readRecord } from '../../src/files/read-record.js'

const bytes = (text: string) => Buffer.from(text, 'utf8')
const faultOf = (given: Uint8Array) => {
  const read = readRecord(given)
  return 'faults' in read ? read.faults[0] : undefined
}

it('reads plain text, with or without a byte order mark, and with either line end', () => {
  const data = { by: 'okafor', purpose: 'routine' }
  for (const text of [
    'by: okafor\npurpose: routine\n',
    '\ufeffby: okafor\npurpose: routine\n',
    'by: okafor\r\npurpose: routine\r\n',
  ])
    expect(readRecord(bytes(text))).toEqual({ data })
})

it.each([
  ['no bytes', new Uint8Array(), 'empty'],
  ['bytes with NUL', bytes('a: b\0\n'), 'binary'],
  ['bytes that are no UTF-8 and hold NUL', Uint8Array.of(0xff, 0xd8, 0xff, 0x00), 'binary'],
  ['Latin-1', Uint8Array.of(0x61, 0x3a, 0x20, 0xe9, 0x0a), 'not-utf-8'],
  ['UTF-16', Buffer.from('\ufeffa: b\n', 'utf16le'), 'binary'],
  ['an escape character', bytes('a: \u001b[31mred\n'), 'control-character'],
  ['a right-to-left override', bytes('a: \u202egnp.exe\n'), 'control-character'],
  ['a zero-width space', bytes('a: b\u200bc\n'), 'control-character'],
  ['a second byte order mark', bytes('\ufeff\ufeffa: b\n'), 'control-character'],
])('%s', (_, given, fault) => {
  expect(faultOf(given)?.fault).toBe(fault)
})

it('names the hidden character and where it stands', () => {
  expect(faultOf(bytes('a: \u202eb\n'))).toEqual({
    fault: 'control-character',
    detail: 'U+202E',
    span: [3, 4],
  })
})
