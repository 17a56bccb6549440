import type { EventEmitter } from 'node:events'
import type { Command, Help, Option } from 'commander'
import { asInHelp, bold, escaped, italic, meaning, paragraph, section, subsection, verbatim } from './roff.js'
import { environment, exitCodes, files, reading } from './told.js'

/** The manual page in man(7): of every command and option what help says of it. */
export function manPage(program: Command, version: string): string {
  const help = program.createHelp()
  const name = program.name()
  const examples = afterHelp(program).split(/^Examples:$/m)[1] ?? ''
  const lines = [
    `.TH ${name.toUpperCase()} 1 "" "${escaped(`${name} ${version}`)}" ""`,
    '.nh',
    '.ad l',
    section('NAME'),
    `${escaped(name)} \\- ${escaped(inBrief(program.description()))}`,
    section('SYNOPSIS'),
    `${bold(name)} ${italic('command')} [${italic('argument')} ...] [${italic('option')} ...]`,
    section('DESCRIPTION'),
    ...reading.flatMap(paragraph),
    section('OPTIONS'),
    ...paragraph('Every command takes these.'),
    ...optionsOf(program, help),
    section('COMMANDS'),
    ...commandsOf(program, help).flatMap((command) => commandLines(command, help)),
    section('EXIT STATUS'),
    ...paragraph('What a command says of its own goes before this.'),
    ...exitCodes.flatMap(([code, text]) => meaning(bold(code), text)),
    section('ENVIRONMENT'),
    ...environment.flatMap(([variable, text]) => meaning(bold(variable), text)),
    section('FILES'),
    ...files.flatMap(([path, text]) => meaning(italic(path), text)),
    section('EXAMPLES'),
    ...verbatim(
      examples
        .trim()
        .split('\n')
        .map((line) => line.trim()),
    ),
    section('SEE ALSO'),
    `${bold('git')}(1)`,
    ...paragraph(
      `\`${name} explain\` tells of every rule why it exists, and \`${name} help\` of every command.`,
    ),
  ]
  return `${lines.join('\n')}\n`
}

/** The description as the line of NAME has it: one clause, no full stop. */
function inBrief(description: string): string {
  const clause = description.replace(/\.$/, '')
  return `${clause.charAt(0).toLowerCase()}${clause.slice(1)}`
}

/** Commands that do something themselves, each after the one it belongs to. */
function commandsOf(command: Command, help: Help): readonly Command[] {
  return help
    .visibleCommands(command)
    .filter((one) => command.commands.includes(one))
    .flatMap((one) => [one, ...commandsOf(one, help)])
}

function commandLines(command: Command, help: Help): readonly string[] {
  return [
    subsection(help.commandUsage(command)),
    ...paragraph(command.description()),
    ...help
      .visibleArguments(command)
      .flatMap((one) => meaning(italic(help.argumentTerm(one)), help.argumentDescription(one))),
    ...optionsOf(command, help),
    ...asInHelpIfAny(afterHelp(command)),
  ]
}

function asInHelpIfAny(text: string): readonly string[] {
  return text.trim() === '' ? [] : asInHelp(text)
}

/** `--help` is told once, of all commands. */
function optionsOf(command: Command, help: Help): readonly string[] {
  return help
    .visibleOptions(command)
    .filter((option) => command.parent === null || command.options.includes(option))
    .flatMap((option) => meaning(termOf(option), help.optionDescription(option)))
}

/** The flags to be typed, the value to be put in. */
function termOf({ flags }: Option): string {
  return flags
    .split(/([<[][^\]>]*[\]>])/)
    .map((part, at) => (at % 2 === 1 ? italic(part) : part === '' ? '' : bold(part)))
    .join('')
}

/** What a command adds to its help behind the options. */
function afterHelp(command: Command): string {
  let text = ''
  const write = (more: string) => {
    text += more
  }
  // Its listeners are what `addHelpText` was given; the types of commander do not show that it emits.
  ;(command as unknown as EventEmitter).emit('afterHelp', { error: false, command, write })
  return text
}
