import { labelOn, pestOnLabel, placeOnLabel } from '../../ledger/labels.js'
import type { RegisterEntry } from '../../ledger/register.js'
import type { SiteView } from '../../ledger/site-view.js'
import { holdsOn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isCancelled } from '../../ledger/use-classes.js'
import type { Formulation, ProductKind, SignalWord } from '../../records/use-words.js'
import { sprayApplication } from '../example-applications.js'
import { sprayLabel } from '../label-use/example-ledgers.js'
import { commonPractice, siteRule } from '../rule.js'
import { isSprayed } from './sprays.js'

export const milderProductOnRegister = siteRule<{
  used: string
  usedWord: string
  other: string
  otherWord: string
  enclosed: boolean
  more: number
}>({
  id: 'milder-product-on-register',
  title: 'a milder product was at hand and no reason for the choice is recorded',
  level: 'note',
  judgedOn: 'the day of the application; the register and the labels in force then',
  why: 'Integrated pest management takes the least hazardous way that works. Often there is a good reason for another one; the record is where it can be seen.',
  remedy:
    'Write down why this product and no milder one: `chosen-because: bait was not taken in two weeks`. The signal word is one measure of hazard among several; the label of each product decides what it may be used for.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ used, usedWord, other, otherWord, enclosed, more }) =>
    `${other} (${wordInWords(otherWord)}${enclosed ? ', in a station or placement' : ''}) is also on the register for this pest and place${
      more === 0 ? '' : `, and so ${more === 1 ? 'is one other' : `are ${more} others`}`
    }; the record shows ${used} (${wordInWords(usedWord)}) and no reason for the choice.`,
  *check(view) {
    for (const treatment of view.treatments) {
      const { application, product, day } = treatment
      if (!application || !product || day < view.begins || !chosenFor(product, controls)) continue
      if (application['chosen-because'] !== undefined) continue
      // Teaching and an order of the health authorities leave no choice to explain.
      if ((application.purpose ?? 'pest-control') !== 'pest-control') continue
      const milder = milderThan(treatment, view)
      const [first] = milder
      const usedWord = product.data['signal-word']
      if (!first || usedWord === undefined) continue
      yield {
        args: {
          used: product.data.name,
          usedWord,
          other: first.product.data.name,
          otherWord: first.word,
          enclosed: first.enclosed,
          more: milder.length - 1,
        },
        at: treatment.at('product'),
        related: [
          {
            place: { file: first.product.file, path: ['signal-word'] },
            says: `the record of ${first.product.data.name}`,
          },
        ],
        from: day,
      }
    }
  },
  failing: `${sprayLabel('')}${sprayApplication(
    '2026-03-12',
    'product: spray-a # expect: milder-product-on-register',
    'chosen-because:',
  )}`,
  passing: `${sprayLabel('')}${sprayApplication('2026-03-12', 'chosen-because: bait was not taken in two weeks')}`,
})

const controls: ReadonlySet<ProductKind> = new Set(['pesticide', 'minimum-risk'])
const candidates: ReadonlySet<ProductKind> = new Set([...controls, 'living-agent'])

function chosenFor({ data }: RegisterEntry, kinds: ReadonlySet<ProductKind>): boolean {
  return kinds.has(data.kind)
}

/** The signal words of 40 CFR 156.64, mildest first. */
const mildestFirst: readonly SignalWord[] = ['none', 'caution', 'warning', 'danger', 'danger-poison']

interface Milder {
  readonly product: RegisterEntry
  readonly word: SignalWord
  readonly enclosed: boolean
}

/**
 * Other products whose label in force names every target pest and every treated place, with a milder signal word, or
 * with the same one and closed in where this one was sprayed. What a record does not tell is taken for no.
 */
function milderThan(treatment: Treatment, view: SiteView): Milder[] {
  const rank = (word: SignalWord | undefined) => (word === undefined ? -1 : mildestFirst.indexOf(word))
  const used = rank(treatment.product?.data['signal-word'])
  if (used < 0) return []
  const found: Milder[] = []
  for (const product of view.district.register) {
    const word = product.data['signal-word']
    if (product.id === treatment.productId || word === undefined || !chosenFor(product, candidates)) continue
    if (rank(word) > used || !couldBeUsed(product, treatment, view)) continue
    const enclosed = isEnclosed(product, treatment)
    if (rank(word) < used || (enclosed && isSprayed(treatment))) found.push({ product, word, enclosed })
  }
  return found.sort(
    (a, b) =>
      rank(a.word) - rank(b.word) ||
      Number(b.enclosed) - Number(a.enclosed) ||
      (a.product.id < b.product.id ? -1 : 1),
  )
}

/** Nothing on the register speaks against it on that day, and its label names the pests and the places. */
function couldBeUsed(product: RegisterEntry, treatment: Treatment, view: SiteView): boolean {
  const { data } = product
  const { day, pests, areas } = treatment
  const { state } = view.district.district.data
  const inState =
    state === undefined || data.states === undefined || data.states[state]?.some((span) => holdsOn(span, day))
  if (!inState || data['restricted-use'] === 'yes' || isCancelled({ day, product })) return false
  const label = labelOn(product, day)
  if (!label) return false
  return (
    pests.every((pest) => pestOnLabel(label.says, pest) === 'named') &&
    areas.every(({ area }) => area && placeOnLabel(label.says, area.facts.kind) === 'named')
  )
}

const laid: ReadonlySet<Formulation> = new Set(['gel', 'paste', 'bait-block', 'liquid-bait', 'bait-station'])

/** Used in a station or a placement, so that little of it is where people are. */
function isEnclosed(product: RegisterEntry, { day }: Treatment): boolean {
  const { formulation } = product.data
  const methods = labelOn(product, day)?.says.methods
  if (formulation === undefined || !laid.has(formulation)) return false
  return methods === undefined || methods.includes('in-a-station') || methods.includes('bait-placement')
}

function wordInWords(word: string): string {
  return word === 'none' ? 'no signal word' : word
}
