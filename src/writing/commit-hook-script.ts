import { createHash } from 'node:crypto'

/** What the hook has to know of the place where it was set up. */
export interface HookPlan {
  /** Folders of the ledgers it checks, from the top of a checkout with forward slashes; `''` for the top itself. */
  readonly ledgers: readonly string[]
  /** The program as it was run when the hook was set up: node, and the file that it starts. */
  readonly program: { readonly node: string; readonly file: string }
}

/** The hook that was there before lies beside ours under this name. */
export const nameOfHookBefore = 'pre-commit.before-doorsweep'

const mark = '# Hook of doorsweep'

/**
 * The hook as a script for the plain shell. Its second line holds a sum of all that follows, so that one changed by hand
 * is known for what it is and never overwritten.
 */
export function hookScript(plan: HookPlan): string {
  const body = bodyOf(plan)
  return `#!/bin/sh\n${mark}, sum ${sumOf(body)}\n${body}`
}

export type HookFound =
  | { readonly is: 'ours'; readonly ledgers: readonly string[] }
  | { readonly is: 'changed-by-hand' | 'not-ours' }

/** Whose a hook is, by its text. */
export function hookFound(text: string): HookFound {
  const parts = /^#!\/bin\/sh\n# Hook of doorsweep, sum ([0-9a-f]+)\n(.*)$/s.exec(text)
  if (!parts) return { is: text.includes(mark) ? 'changed-by-hand' : 'not-ours' }
  const [, sum, body = ''] = parts
  if (sum !== sumOf(body)) return { is: 'changed-by-hand' }
  const ledgers = [...body.matchAll(/^# ledger: (.*)$/gm)].map(([, told = '']) => String(JSON.parse(told)))
  return { is: 'ours', ledgers }
}

function sumOf(body: string): string {
  return createHash('sha256').update(body).digest('hex').slice(0, 20)
}

/** One word for the shell, whatever is in it. */
function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`
}

function bodyOf({ ledgers, program }: HookPlan): string {
  const sorted = [...new Set(ledgers)].sort()
  return `# Set up by \`doorsweep hook install\`; \`doorsweep hook remove\` takes it away and puts back what was here before.
${sorted.map((ledger) => `# ledger: ${JSON.stringify(ledger)}\n`).join('')}
node=${quoted(program.node)}
program=${quoted(program.file)}
unset CDPATH
folder=$(cd "$(dirname "$0")" && pwd) || exit 2
${hookBefore}
# Git runs a hook at the top of the checkout, and may say by these where that is; the folder alone says it here.
top=$(pwd)
unset GIT_DIR GIT_WORK_TREE GIT_PREFIX

${checks}
status=0
${sorted.map((ledger) => `check_ledger ${quoted(ledger === '' ? '' : `${ledger}/`)} || status=$?\n`).join('')}if [ "$status" -ne 0 ]; then
  echo 'doorsweep: nothing was committed. Mend what is told above and stage it with git add; git commit --no-verify commits it as it is.' >&2
fi
exit "$status"
`
}

/** A script for a shell is read in, so that it finds itself under the name and in the folder it was written for. */
const hookBefore = `
# The hook that was here before goes first, and can refuse as it always could.
before=$folder/${nameOfHookBefore}
if [ -x "$before" ]; then
  read -r first <"$before" || :
  case $first in
    '#!/bin/sh' | '#!/usr/bin/sh' | '#!/usr/bin/env sh') shell=sh ;;
    '#!/bin/bash' | '#!/usr/bin/bash' | '#!/usr/bin/env bash') shell=bash ;;
    *) shell= ;;
  esac
  if [ -n "$shell" ]; then
    DOORSWEEP_HOOK_BEFORE=$before "$shell" -c '. "$DOORSWEEP_HOOK_BEFORE"' "$0" "$@" || exit $?
  else
    "$before" "$@" || exit $?
  fi
fi
`

const checks = `# The program that set this up; else one that is installed beside the records; else any that is found.
run_doorsweep() {
  if [ -f "$program" ] && [ -x "$node" ]; then "$node" "$program" "$@"
  elif [ -f "$program" ] && command -v node >/dev/null 2>&1; then node "$program" "$@"
  elif [ -x "$top/node_modules/.bin/doorsweep" ]; then "$top/node_modules/.bin/doorsweep" "$@"
  elif command -v doorsweep >/dev/null 2>&1; then doorsweep "$@"
  else
    printf 'doorsweep: the program is no longer at %s and nowhere else to be found, so the records were not checked. Install it again and run: doorsweep hook install\\n' "$program" >&2
    return 2
  fi
}

# The argument is the folder of a ledger from the top, with a slash at its end; nothing when it is the top.
check_ledger() {
  if [ ! -f "$top/$1district.yaml" ]; then
    # Another branch, on which there is no such ledger; or one that was taken away.
    if git cat-file -e "HEAD:$1district.yaml" 2>/dev/null ||
      git --literal-pathspecs ls-files --error-unmatch -- "$1district.yaml" >/dev/null 2>&1; then
      printf 'doorsweep: %s is not there, so the records were not checked. If the ledger has moved, run \`doorsweep hook install\` in its new place.\\n' "$top/$1district.yaml" >&2
      return 2
    fi
    return 0
  fi
  # What does not touch the ledger cannot bring anything to it.
  if git --literal-pathspecs diff --cached --quiet --no-ext-diff -- "\${1:-.}"; then return 0; fi
  run_doorsweep check --staged --ledger "$top/$1"
}
`
