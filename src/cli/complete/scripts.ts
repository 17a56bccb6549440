import type { Shell } from './shells.js'
import { offerPaths } from './shells.js'

/** What a shell runs to complete the command; all it knows of the command it asks for, each time. */
export const scripts: Readonly<Record<Shell, string>> = {
  bash: `# Completion of doorsweep for bash. In ~/.bashrc:  source <(doorsweep completion bash)
_doorsweep() {
  local line
  COMPREPLY=()
  while IFS= read -r line; do
    case $line in
      ${offerPaths.files}) compopt -o bashdefault -o default 2>/dev/null || true ;;
      ${offerPaths.folders}) compopt -o dirnames 2>/dev/null || true ;;
      *) COMPREPLY+=("$line") ;;
    esac
  done < <(doorsweep complete -- "\${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
  # Behind the slash something follows.
  if [[ \${#COMPREPLY[@]} -eq 1 && \${COMPREPLY[0]} == */ ]]; then compopt -o nospace 2>/dev/null || true; fi
  return 0
}
complete -F _doorsweep doorsweep
`,
  zsh: `#compdef doorsweep
# Completion of doorsweep for zsh. In ~/.zshrc:  source <(doorsweep completion zsh)
_doorsweep() {
  local line word paths
  local -a asked whole shown begun
  asked=("\${(@Q)words[2,CURRENT-1]}" "\${(Q)PREFIX}")
  while IFS= read -r line; do
    word=\${line%%$'\\t'*}
    case $word in
      ${offerPaths.files}|${offerPaths.folders}) paths=$word ;;
      */) begun+=("$word") ;;
      *)
        whole+=("$word")
        if [[ $line == *$'\\t'* ]]; then line="$word -- \${line#*$'\\t'}"; fi
        shown+=("\${line[1,COLUMNS-1]}")
        ;;
    esac
  done < <(doorsweep complete --described -- "\${(@)asked}" 2>/dev/null)
  if (( \${#begun} )); then compadd -S '' -- "\${(@)begun}"; fi
  if (( \${#whole} )); then
    if [[ "\${(j::)shown}" == "\${(j::)whole}" ]]; then compadd -- "\${(@)whole}"
    else compadd -l -d shown -- "\${(@)whole}"; fi
  fi
  if [[ -n $paths ]]; then
    if [[ $PREFIX == --*=* ]]; then compset -P '*='; fi
    if [[ $paths == ${offerPaths.folders} ]]; then _files -/; else _files; fi
  fi
  return 0
}
if [[ \${funcstack[1]} == _doorsweep ]]; then
  _doorsweep "$@"
else
  (( $+functions[compdef] )) || { autoload -Uz compinit && compinit }
  compdef _doorsweep doorsweep
fi
`,
  fish: `# Completion of doorsweep for fish. In ~/.config/fish/config.fish:  doorsweep completion fish | source
function __doorsweep_complete
  set -l typed (commandline -opc)
  set -e typed[1]
  set -l current (commandline -ct)
  set -l ahead (string match -r '^--[^=]*=' -- "$current")
  for line in (doorsweep complete --described -- $typed "$current" 2>/dev/null)
    switch $line
      case ${offerPaths.files}
        for path in (__fish_complete_path (string replace -r '^--[^=]*=' '' -- "$current"))
          printf '%s%s\\n' "$ahead" $path
        end
      case ${offerPaths.folders}
        for path in (__fish_complete_directories (string replace -r '^--[^=]*=' '' -- "$current"))
          printf '%s%s\\n' "$ahead" $path
        end
      case '*'
        printf '%s\\n' $line
    end
  end
end
complete -c doorsweep -f -a '(__doorsweep_complete)'
`,
}
