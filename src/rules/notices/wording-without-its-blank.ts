import { dayOfUndated } from '../../ledger/undated.js'
import { leavesItOut, unknownBlanks } from '../../records/wording.js'
import { districtRule, ledgerFormat } from '../rule.js'
import { wordingParts, wordingWith } from './wording-parts.js'

export const wordingWithoutItsBlank = districtRule<{ content: string }>({
  id: 'wording-without-its-blank',
  title: "a line of the district's words for a notice or a sign leaves out what it is there for",
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'A notice made from that line would not say what a rulebook asks it to say; so the line is not used.',
  remedy: 'Put in braces what is to be filled in: `registration: "Número de registro: {registration}"`.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: false,
  says: ({ content }) => `This line is for ${content}, and {${content}} does not stand in it.`,
  *check(view) {
    for (const { file, data } of view.wordings.values())
      for (const { path, text, content } of wordingParts(data)) {
        // A misspelt blank is told as that.
        if (content === undefined || !leavesItOut(text, content)) continue
        if (unknownBlanks(text, content).length > 0) continue
        yield { args: { content }, at: { file, path }, from: dayOfUndated(view) }
      }
  },
  failing: wordingWith('registration: "Número de registro" # expect: wording-without-its-blank'),
  passing: wordingWith('registration: "Número de registro: {registration}"'),
})
