// Shell completion, made from the commands themselves: commands, then the options of each, then files.

import type { Command } from "commander";

export const shells = ["bash", "zsh", "fish"] as const;
export type Shell = (typeof shells)[number];

/** The script that teaches a shell the words of `program`. */
export function completionScript(program: Command, shell: Shell): string {
  return shell === "fish" ? fishScript(program) : bashScript(program, shell);
}

/** zsh understands bash's way of completing once asked to. */
function bashScript(program: Command, shell: "bash" | "zsh"): string {
  const name = program.name();
  const cases = program.commands.map((command) => `    ${command.name()}) words="${wordsOf(command)}" ;;`);
  return `${shell === "zsh" ? "autoload -U +X bashcompinit && bashcompinit\n" : ""}_${name}() {
  local words="${[...program.commands.map((command) => command.name()), ...optionsOf(program)].join(" ")}"
  case "\${COMP_WORDS[1]}" in
${cases.join("\n")}
  esac
  if [ "$COMP_CWORD" -eq 1 ]; then words="${program.commands.map((command) => command.name()).join(" ")} ${optionsOf(program).join(" ")}"; fi
  COMPREPLY=($(compgen -W "$words" -- "\${COMP_WORDS[COMP_CWORD]}"))
}
complete -o default -F _${name} ${name}
`;
}

function fishScript(program: Command): string {
  const name = program.name();
  const commands = program.commands.map(
    (command) =>
      `complete -c ${name} -n __fish_use_subcommand -a ${command.name()} -d ${fishQuoted(command.summary())}`,
  );
  const options = program.commands.flatMap((command) =>
    command.options.map(
      (option) =>
        `complete -c ${name} -n "__fish_seen_subcommand_from ${command.name()}" -l ${option.name()}` +
        `${option.required ? " -r" : ""} -d ${fishQuoted(option.description)}`,
    ),
  );
  return `${[...commands, ...options].join("\n")}\n`;
}

/** Options of a command, then the values its arguments are limited to. */
const wordsOf = (command: Command): string =>
  [...optionsOf(command), ...command.registeredArguments.flatMap(({ argChoices = [] }) => argChoices)].join(" ");

const optionsOf = (command: Command): string[] => [
  ...command.options.map(({ long }) => long ?? "").filter((option) => option !== ""),
  "--help",
];

const fishQuoted = (text: string): string =>
  `'${text.replaceAll("\\", "\\\\").replaceAll("'", "\\'").replaceAll("\n", " ")}'`;
