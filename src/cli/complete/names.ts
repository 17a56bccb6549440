import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { methods } from '../../records/use-words.js'
import { foldersIn, isPlainName, keysUnder, linesOf, stemsIn } from './plain-lines.js'
import type { NamesOf } from './value-kinds.js'

/** What names are looked for around. */
export interface Around {
  /** The ledger, if there is one. */
  readonly root: string | undefined
  readonly cwd: string
  /** What was named before on the same line. */
  readonly given: (what: NamesOf) => string | undefined
  /** The option that the name is for, without its dashes; empty for an argument. */
  readonly option: string
  /** The word as far as it was typed. */
  readonly typed: string
}

type Find = (around: Around) => readonly string[]
type FindInLedger = (root: string, around: Around) => readonly string[]

/** The known names of a kind, each once, in order. A guess by names of files and lines alone: it judges nothing. */
export function namesOf(what: NamesOf, around: Around): readonly string[] {
  return [...new Set(finders[what](around))].filter(isOffered).sort()
}

/** Plain names, and a site with a slash and what lies there. */
function isOffered(word: string): boolean {
  const [first = '', second, ...rest] = word.split('/')
  return (
    isPlainName(first) && (second === undefined || second === '' || isPlainName(second)) && rest.length === 0
  )
}

const finders: Readonly<Record<NamesOf, Find>> = {
  'active-ingredient': inLedger((root, { given }) => {
    const product = nameIn(given('product'))
    if (product === undefined) return []
    return keysUnder(linesOf(join(root, 'products', product, 'product.yaml')), ['active-ingredients'])
  }),
  application: inLedger((root, { typed }) => eventsOf(root, typed, 'applications')),
  area: inSite((folder) => keysUnder(linesOf(join(folder, 'site.yaml')), ['areas'])),
  condition: inSite((folder) => keysOfVisits(folder, 'conditions')),
  device: inSite((folder) => keysOfVisits(folder, 'set')),
  'feature-word': ({ option }) =>
    keysUnder(linesOf(program('src/data/identification.yaml')), ['words', option, 'are']),
  language: inLedger((root) =>
    stemsIn(join(root, 'wordings'), '.yaml').flatMap((stem) =>
      languageOf(join(root, 'wordings', `${stem}.yaml`)),
    ),
  ),
  method: () => methods,
  person: inLedger((root) => stemsIn(join(root, 'people'), '.yaml')),
  pest: ({ root }) => [
    ...keysUnder(linesOf(program('src/data/pests.yaml'))),
    ...(root === undefined ? [] : stemsIn(join(root, 'plans'), '.yaml')),
  ],
  product: inLedger((root) => foldersIn(join(root, 'products'))),
  'record-kind': () => stemsIn(program('schemas'), '.schema.json'),
  rule: rules,
  rulebook: () => stemsIn(program('src/data/rulebooks'), '.yaml'),
  site: inLedger((root) => foldersIn(join(root, 'sites'))),
  visit: inLedger((root, { typed }) => eventsOf(root, typed, 'visits')),
}

/** A file that comes with the program. */
function program(path: string): string {
  return fileURLToPath(new URL(`../../../${path}`, import.meta.url))
}

function inLedger(find: FindInLedger): Find {
  return (around) => (around.root === undefined ? [] : find(around.root, around))
}

/** Names at the site that was named before, or else the one whose folder this is, or else the only one there is. */
function inSite(find: (folder: string) => readonly string[]): Find {
  return inLedger((root, { given, cwd }) => {
    const [first, second] = relative(root, cwd).split(sep)
    const site = nameIn(given('site') ?? (first === 'sites' ? second : undefined) ?? onlySiteIn(root))
    return site === undefined ? [] : find(join(root, 'sites', site))
  })
}

function onlySiteIn(root: string): string | undefined {
  const [only, ...others] = foldersIn(join(root, 'sites'))
  return others.length === 0 ? only : undefined
}

/** A name that leads to no other folder. */
function nameIn(word: string | undefined): string | undefined {
  return word !== undefined && isPlainName(word) ? word : undefined
}

/** First the site, then what lies there: a large ledger has more visits than anyone wants to see. */
function eventsOf(root: string, typed: string, folder: 'applications' | 'visits'): readonly string[] {
  const at = typed.indexOf('/')
  if (at === -1) return foldersIn(join(root, 'sites')).map((site) => `${site}/`)
  const site = nameIn(typed.slice(0, at))
  if (site === undefined) return []
  return stemsIn(join(root, 'sites', site, folder), '.yaml').map((stem) => `${site}/${stem}`)
}

function keysOfVisits(folder: string, key: string): readonly string[] {
  const visits = join(folder, 'visits')
  return stemsIn(visits, '.yaml').flatMap((stem) => keysUnder(linesOf(join(visits, `${stem}.yaml`)), [key]))
}

function languageOf(file: string): readonly string[] {
  return linesOf(file).flatMap((line) => /^language: ["']?([A-Za-z0-9-]+)["']?\s*$/.exec(line)?.[1] ?? [])
}

/** Each family of rules lists its own, one file a rule; to load them all would take longer than anyone waits. */
function rules(): readonly string[] {
  const folder = fileURLToPath(new URL('../../rules/', import.meta.url))
  // The program runs compiled, its tests as it is written.
  const ending = import.meta.url.endsWith('.ts') ? 'ts' : 'js'
  return foldersIn(folder).flatMap((family) =>
    linesOf(join(folder, family, `index.${ending}`)).flatMap(
      (line) => /from ['"]\.\/([a-z0-9-]+)\.js['"]/.exec(line)?.[1] ?? [],
    ),
  )
}
