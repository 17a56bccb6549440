import { file } from '../../records/fields.js'
import type { VisitPlan } from './plan.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { nameFor } from './words.js'

const fileName = file('Photo or scan beside the visit')

/** `photo dish.jpg gap behind the dish machine`: a photo or scan that lies beside the record. `photo` alone asks. */
export function photoTold(plan: VisitPlan, state: VisitState, told: string): Outcome {
  if (told === '')
    return { state: { ...state, pending: [{ is: 'photo' }, ...state.pending], understood: [] } }
  const { name, shows } = fileAtStart(told)
  const path = besideRecord(plan, name)
  const known = Object.keys(state.draft.files).find((key) => state.draft.files[key]?.file === path)
  if (shows === '-') {
    if (known === undefined) return { complaint: `${path} is not named on this visit.` }
    const { [known]: _told, ...files } = state.draft.files
    return { state: { ...state, draft: { ...state.draft, files }, understood: [`${path}: not named`] } }
  }
  if (!fileName.safeParse(path).success)
    return {
      complaint: `${name} cannot be named in the record: a photo lies beside it, in sites/${plan.site}/visits. Copy it there and write its name alone.`,
    }
  if (shows === '')
    return {
      state: { ...state, pending: [{ is: 'photo-shows', file: path }, ...state.pending], understood: [] },
    }
  return { state: withPhoto(state, path, shows) }
}

/** The name of a file may hold blanks: in quotes, or up to its ending, such as `.jpg`. */
function fileAtStart(told: string): { readonly name: string; readonly shows: string } {
  const quoted = /^(["'])(.+?)\1(?: (.*))?$/.exec(told)
  if (quoted) return { name: quoted[2] ?? '', shows: quoted[3] ?? '' }
  const ended = /^(.+?\.[A-Za-z0-9]{2,5})(?: (.*))?$/.exec(told)
  if (ended) return { name: ended[1] ?? '', shows: ended[2] ?? '' }
  const at = told.indexOf(' ')
  return at === -1 ? { name: told, shows: '' } : { name: told.slice(0, at), shows: told.slice(at + 1) }
}

/** As the record names it, though it was typed from the root of the ledger. */
function besideRecord({ site }: VisitPlan, name: string): string {
  const folder = `sites/${site}/visits/`
  return (name.startsWith(folder) ? name.slice(folder.length) : name).replace(/^\.\//, '')
}

function withPhoto(state: VisitState, path: string, shows: string): VisitState {
  const { files } = state.draft
  const known = Object.keys(files).find((key) => files[key]?.file === path)
  const numbered = Array.from({ length: Object.keys(files).length + 1 }, (_none, at) => `photo-${at + 1}`)
  const name =
    known ?? numbered.find((one) => files[one] === undefined) ?? nameFor('photo', new Set(Object.keys(files)))
  return {
    ...state,
    draft: { ...state.draft, files: { ...files, [name]: { file: path, shows } } },
    understood: [`${name}: ${path} shows ${shows}`],
  }
}

export function answerPhoto(plan: VisitPlan, state: VisitState, text: string): Outcome {
  if (text === '' || text === '-') return answered(state, {}, { understood: ['no photo'] })
  return photoTold(plan, { ...state, pending: state.pending.slice(1) }, text)
}

export function answerPhotoShows(
  state: VisitState,
  { file: path }: Extract<Step, { readonly is: 'photo-shows' }>,
  text: string,
): Outcome {
  if (text === '-') return answered(state, {}, { understood: [`${path}: not named`] })
  if (text === '') return { complaint: `What does ${path} show? - leaves it out.` }
  return { state: withPhoto({ ...state, pending: state.pending.slice(1) }, path, text) }
}
