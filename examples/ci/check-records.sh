#!/bin/sh
# Checks what the commits since BASE brought, and fails for nothing else.
#
#   sh check-records.sh [BASE] [FORMAT]
#
# Run it in the ledger. BASE is the branch that the change is meant for, origin/main if not said; FORMAT is text, json,
# sarif, junit or annotations. DOORSWEEP names the program, if `doorsweep` is not on the path.
# Exit codes: 0 nothing new to mend, 1 new problems, 2 something could not be checked.
set -eu

base=${1:-origin/main}
format=${2:-text}
doorsweep=${DOORSWEEP:-doorsweep}

# A shallow copy may end before the commit where the change left BASE.
if [ "$(git rev-parse --is-shallow-repository)" = true ]; then
  git fetch --quiet --unshallow origin || exit 2
fi

# A copy of one branch does not know the others.
case $base in
  origin/*)
    git rev-parse --verify --quiet "$base^{commit}" >/dev/null ||
      git fetch --quiet origin "+refs/heads/${base#origin/}:refs/remotes/$base" || exit 2
    ;;
esac

exec "$doorsweep" check --since "$base" --format "$format"
