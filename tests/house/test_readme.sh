#!/bin/sh
# The picture of the screen in README.md is what the program prints.  LIBRARY names the library built, the program
# beside it; without it PLYLOFT names the program.
# shellcheck disable=SC2317  # the functions are called by name
set -u
. tests/house/trial.sh

program=${PLYLOFT:-build/plyloft}
[ -n "${LIBRARY:-}" ] && program=${LIBRARY%/*}/plyloft
command='plyloft samples/front-wing.json'
keys='Down Down ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ]'

box=$(mktemp -d) || exit 1
trap 'rm -rf "$box"' EXIT

# The indented block behind the command, its indent taken off.
picture()
{
    awk -v command="    $command" '
        !on { on = $0 == command; next }
        /^    / { for (; blank; blank--) if (shown) print ""; shown = 1; print substr($0, 5); next }
        /^$/ { blank++; next }
        { exit }' README.md
}

# The screen as text; what a session keeps goes into a folder of its own.
screen()
{
    HOME=$box XDG_STATE_HOME=$box/state "$program" screen samples/front-wing.json --size 100x30 --keys "$keys"
}

readme_has_a_picture()
{
    picture >"$box/picture"
    lines=$(grep -c . "$box/picture")
    echo "$lines lines of a picture behind '    $command'"
    [ "$lines" -ge 20 ]
}

picture_is_what_is_printed()
{
    picture >"$box/picture"
    screen >"$box/screen" || { echo "$program screen: exit status $?"; return 1; }
    diff -u --label README.md --label "$program" "$box/picture" "$box/screen"
}

trial "README.md has a picture of the screen" readme_has_a_picture
trial "the picture in README.md is what plyloft screen prints" picture_is_what_is_printed
end_trials
