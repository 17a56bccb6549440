import { readFileSync } from 'node:fs'

export function version(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8')
  return (JSON.parse(text) as { version: string }).version
}

/** The version of an optional dependency that this program was tested with. */
export function wantedVersion(name: string): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8')
  const { optionalDependencies } = JSON.parse(text) as { optionalDependencies?: Record<string, string> }
  return optionalDependencies?.[name] ?? 'latest'
}
