// Shell completion, made from the commands themselves: commands, then the options of each, then files.

import type { Command } from "commander";

export const shells = ["bash", "zsh", "fish"] as const;
export type Shell = (typeof shells)[number];

/** The script that teaches a shell the words of `program`. */
export function completionScript(program: Command, shell: Shell): string {
  return shell === "fish" ? fishScript(program) : bashScript(program, shell);
}

/** A command or a part of one, with the words that lead to it. */
interface Reached {
  readonly path: readonly string[];
  readonly command: Command;
}

const commandsOf = (program: Command): Reached[] =>
  program.commands.flatMap((command) => [
    { path: [command.name()], command },
    ...command.commands.map((part) => ({ path: [command.name(), part.name()], command: part })),
  ]);

/** zsh understands bash's way of completing once asked to. */
function bashScript(program: Command, shell: "bash" | "zsh"): string {
  const name = program.name();
  // The longest path first: `case` takes the first that fits.
  const cases = commandsOf(program)
    .toSorted((a, b) => b.path.length - a.path.length)
    .map(({ path, command }) => `    "${path.join(" ")} "*) offered="${wordsOf(command).join(" ")}" ;;`);
  return `${shell === "zsh" ? "autoload -U +X bashcompinit && bashcompinit\n" : ""}_${name}() {
  local offered="${wordsOf(program).join(" ")}"
  local before="\${COMP_WORDS[*]:1:$((COMP_CWORD - 1))} "
  case "$before" in
${cases.join("\n")}
  esac
  COMPREPLY=($(compgen -W "$offered" -- "\${COMP_WORDS[COMP_CWORD]}"))
}
complete -o default -F _${name} ${name}
`;
}

function fishScript(program: Command): string {
  const name = program.name();
  const first = program.commands.map(
    (command) =>
      `complete -c ${name} -n __fish_use_subcommand -a ${command.name()} -d ${fishQuoted(command.summary())}`,
  );
  const rest = commandsOf(program).flatMap(({ path, command }) => {
    const seen = fishQuoted(path.map((word) => `__fish_seen_subcommand_from ${word}`).join("; and "));
    const parts = command.commands.map(
      (part) => `complete -c ${name} -n ${seen} -a ${part.name()} -d ${fishQuoted(part.summary())}`,
    );
    const options = command.options.map(
      (option) =>
        `complete -c ${name} -n ${seen} -l ${option.name()}${option.required ? " -r" : ""} -d ${fishQuoted(option.description)}`,
    );
    const values = choicesOf(command).map((value) => `complete -c ${name} -n ${seen} -a ${value}`);
    return [...parts, ...options, ...values];
  });
  return `${[...first, ...rest].join("\n")}\n`;
}

/** What may follow: parts of a command, its options, the values its arguments are limited to. */
const wordsOf = (command: Command): readonly string[] => [
  ...command.commands.map((part) => part.name()),
  ...command.options.map(({ long }) => long ?? "").filter((option) => option !== ""),
  "--help",
  ...choicesOf(command),
];

const choicesOf = (command: Command): readonly string[] =>
  command.registeredArguments.flatMap(({ argChoices = [] }) => argChoices);

const fishQuoted = (text: string): string =>
  `'${text.replaceAll("\\", "\\\\").replaceAll("'", "\\'").replaceAll("\n", " ")}'`;
