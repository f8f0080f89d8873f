"""``dossier completion``: a script with which a shell completes commands, options and their words."""

import argparse
from collections.abc import Iterator, Mapping
from typing import Any

from dossier.cli.files import assessed, new_command
from dossier.cli.status import DONE

HELP = """
Print a script that lets your shell complete commands, options, the words an
option takes, demonstration projects, drawings, and behind explain FILE the
names of results, checks and keys of that file, which are calculated once for
each state of the file. Files are completed as ever.

--names FILE prints these names, one a line.

examples:
  dossier completion bash > ~/.local/share/bash-completion/completions/dossier
  dossier completion zsh >> ~/.zshrc
  dossier completion fish > ~/.config/fish/completions/dossier.fish
  dossier completion --names boat.yaml

exit status: 0 done; 2 a fault, told in words
"""
BASH = """\
_dossier_names() {{
  local state
  state="$1 $(cksum < "$1")"
  if [ "$state" != "$_dossier_state" ]; then
    _dossier_known=$(dossier completion --names "$1" 2> /dev/null)
    _dossier_state=$state
  fi
}}
_dossier() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} words=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    words="{commands} --help --version"
  else
    case "${{COMP_WORDS[1]}} $before" in
{choices}
      *) case "${{COMP_WORDS[1]}}" in
{options}
         esac
         if [ "${{COMP_WORDS[1]}}" = explain ] && [ "$COMP_CWORD" -gt 2 ] && [ -f "${{COMP_WORDS[2]}}" ]; then
           _dossier_names "${{COMP_WORDS[2]}}"
           words="$words $_dossier_known"
         fi ;;
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
    ways = command.add_mutually_exclusive_group(required=True)
    ways.add_argument("shell", nargs="?", choices=("bash", "zsh", "fish"), help="which shell")
    ways.add_argument("--names", metavar="FILE", help="print the names that explain knows of a file")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print the script, or the names of a file."""
    if asked.names is not None:
        from dossier.rendering.explanation import known_names

        print("\n".join(known_names(assessed(asked.names))))
        return DONE
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


def _words(name: str, action: argparse.Action) -> list[str]:
    """Words that may stand at a place: those it is limited to, demonstration projects, drawings."""
    from dossier.project.starter import demos
    from dossier.rendering.single import USUAL

    if action.choices:
        return [str(word) for word in action.choices]
    if (name, action.dest) == ("new", "demo"):
        return list(demos())
    return list(USUAL) if (name, action.dest) == ("draw", "name") else []


def _bash(known: Known) -> str:
    choices, options = [], []
    for name, command in known.items():
        long_ones = [o for action in _actions(command) for o in action.option_strings if o.startswith("--")]
        words = [
            word for action in _actions(command) if not action.option_strings for word in _words(name, action)
        ]
        options.append(f'         {name}) words="{" ".join([*words, *long_ones])}" ;;')
        choices += [
            f'      "{name} {option}") words="{" ".join(_words(name, action))}" ;;'
            for action in _actions(command)
            if _words(name, action)
            for option in action.option_strings
        ]
    return BASH.format(commands=" ".join(known), choices="\n".join(choices), options="\n".join(options))


def _fish(known: Known) -> Iterator[str]:
    for name, command in known.items():
        brief = (command.description or "").partition(". ")[0].replace("'", "")
        seen = f"__fish_seen_subcommand_from {name}"
        yield f"complete -c dossier -n __fish_use_subcommand -a {name} -d '{brief}'"
        for action in _actions(command):
            words = " ".join(_words(name, action))
            if words and not action.option_strings:
                yield f"complete -c dossier -n '{seen}' -a '{words}'"
            for option in action.option_strings:
                if option.startswith("--"):
                    said = (action.help or "").replace("'", "")
                    taken = f" -xa '{words}'" if words else ""
                    yield f"complete -c dossier -n '{seen}' -l {option[2:]}{taken} -d '{said}'"
    seen = "__fish_seen_subcommand_from explain; and test -f (commandline -opc)[3]"
    names = "(dossier completion --names (commandline -opc)[3] 2> /dev/null)"
    yield f"complete -c dossier -n '{seen}' -a '{names}'"
