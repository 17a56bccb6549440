import type { Out } from './terminal.js'

/** A reader that went away, such as `head`, is no fault of anyone: what it did not want is not written. */
export function letReaderGo(stream: Out): void {
  stream.on?.('error', (error) => {
    if (!isBrokenPipe(error)) throw error
  })
}

export function isBrokenPipe(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'EPIPE'
}
