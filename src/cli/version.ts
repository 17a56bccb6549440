import { readFileSync } from 'node:fs'

interface Package {
  readonly version: string
  readonly optionalDependencies?: Readonly<Record<string, string>>
}

function ownPackage(): Package {
  return JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as Package
}

export function version(): string {
  return ownPackage().version
}

/** The version of an optional dependency that this program was tested with. */
export function wantedVersion(name: string): string {
  return ownPackage().optionalDependencies?.[name] ?? 'latest'
}
