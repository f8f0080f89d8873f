"""``dossier completion``: a script with which a shell completes commands, options and their words."""

import argparse
from collections.abc import Iterator, Mapping
from typing import Any

from dossier.cli.files import new_command
from dossier.cli.status import DONE

HELP = """
Print a script that lets your shell complete commands, options and the words
an option takes. Files are completed as ever.

examples:
  dossier completion bash > ~/.local/share/bash-completion/completions/dossier
  dossier completion zsh >> ~/.zshrc
  dossier completion fish > ~/.config/fish/completions/dossier.fish

exit status: 0 done
"""
BASH = """\
_dossier() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} words=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    words="{commands} --help --version"
  else
    case "${{COMP_WORDS[1]}} $before" in
{choices}
      *) case "${{COMP_WORDS[1]}}" in
{options}
         esac ;;
    esac
  fi
  COMPREPLY=($(compgen -W "$words" -- "$word"))
}}
complete -o bashdefault -o default -F _dossier dossier
"""
ZSH = "autoload -U +X bashcompinit && bashcompinit\n"


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "completion", "print a completion script for your shell", HELP)
    command.add_argument("shell", choices=("bash", "zsh", "fish"), help="which shell")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print the script."""
    from dossier.cli.parser import parser

    known = _commands(parser())
    if asked.shell == "fish":
        print("\n".join(_fish(known)))
    else:
        print((ZSH if asked.shell == "zsh" else "") + _bash(known), end="")
    return DONE


Known = Mapping[str, argparse.ArgumentParser]


def _commands(parser: argparse.ArgumentParser) -> Known:
    """Parsers of the commands by their names."""
    groups = (action for action in parser._actions if isinstance(action, argparse._SubParsersAction))  # noqa: SLF001 - the library gives no other way
    return {name: made for group in groups for name, made in group.choices.items()}


def _actions(command: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    return iter(command._actions)  # noqa: SLF001 - the library gives no other way


def _bash(known: Known) -> str:
    choices, options = [], []
    for name, command in known.items():
        given = (option for action in _actions(command) for option in action.option_strings)
        long_ones = [option for option in given if option.startswith("--")]
        words = [str(w) for a in _actions(command) if a.choices and not a.option_strings for w in a.choices]
        options.append(f'         {name}) words="{" ".join([*words, *long_ones])}" ;;')
        choices += [
            f'      "{name} {option}") words="{" ".join(map(str, action.choices))}" ;;'
            for action in _actions(command)
            if action.choices
            for option in action.option_strings
        ]
    return BASH.format(commands=" ".join(known), choices="\n".join(choices), options="\n".join(options))


def _fish(known: Known) -> Iterator[str]:
    for name, command in known.items():
        brief = (command.description or "").partition(". ")[0].replace("'", "")
        yield f"complete -c dossier -n __fish_use_subcommand -a {name} -d '{brief}'"
        for action in _actions(command):
            for option in action.option_strings:
                if option.startswith("--"):
                    said = (action.help or "").replace("'", "")
                    words = f" -xa '{' '.join(map(str, action.choices))}'" if action.choices else ""
                    seen = f"__fish_seen_subcommand_from {name}"
                    yield f"complete -c dossier -n '{seen}' -l {option[2:]}{words} -d '{said}'"
