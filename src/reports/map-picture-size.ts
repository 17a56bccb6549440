export interface PictureSize {
  readonly type: 'image/png' | 'image/jpeg'
  /** In pixels. */
  readonly width: number
  readonly height: number
}

/** What a PNG or JPEG says of its size, by its first bytes and not by its name; null for anything else. */
export function pictureSize(bytes: Uint8Array): PictureSize | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  return pngSize(view) ?? jpegSize(view)
}

const pngSignature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]

/** PNG (third edition) 5.2 and 11.2.1: a signature, then a chunk IHDR that begins with width and height. */
function pngSize(view: DataView): PictureSize | null {
  if (view.byteLength < 33 || pngSignature.some((byte, at) => view.getUint8(at) !== byte)) return null
  const isHeader = view.getUint32(8) === 13 && view.getUint32(12) === 0x49484452
  return isHeader ? sized('image/png', view.getUint32(16), view.getUint32(20)) : null
}

/** ITU-T T.81 B.1.1: markers with the length of what follows, until the frame header, which holds the size. */
function jpegSize(view: DataView): PictureSize | null {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return null
  let at = 2
  while (at + 9 <= view.byteLength) {
    if (view.getUint8(at) !== 0xff) return null
    const marker = view.getUint8(at + 1)
    // Fill bytes may stand before a marker.
    if (marker === 0xff) {
      at += 1
      continue
    }
    // SOF0 to SOF15, without the tables (C4, CC) and the reserved C8 among them.
    if (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc)
      return sized('image/jpeg', view.getUint16(at + 7), view.getUint16(at + 5))
    const length = view.getUint16(at + 2)
    // The picture begins, or the file is broken, before its size was told.
    if (marker === 0xda || length < 2) return null
    at += 2 + length
  }
  return null
}

function sized(type: PictureSize['type'], width: number, height: number): PictureSize | null {
  return width > 0 && height > 0 ? { type, width, height } : null
}
