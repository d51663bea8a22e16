#!/bin/sh
# The rules of the house that a compiler does not see: which file may include what, and what the
# library may define and call.  LIBRARY names the library to look into, its objects beside it.
# shellcheck disable=SC2317  # the functions are called by name
set -u
. tests/house/trial.sh

library=${LIBRARY:-build/libplyloft.a}
objects=${library%/*}/src
engine="shape laminate structure flow"

# Succeeds when standard input is empty; shows it otherwise.
none()
{
    ! grep .
}

# Source and header files, of the rooms named or of all, that include what the pattern matches, quotes or
# angle brackets taken with it.
including()
{
    pattern=$1
    shift
    [ $# -gt 0 ] || set -- src include
    grep -rlE --include='*.[ch]' "^[[:space:]]*#[[:space:]]*include[[:space:]]*($pattern)" "$@"
}

engine_folders()
{
    for room in $engine; do
        [ -d "src/$room" ] && echo "src/$room"
    done
}

curses_in_one_file()
{
    including '[<"](ncursesw?/|n?curses\.h)|<(panel|menu|form|term|termcap)\.h' | grep -vx src/screen/terminal.c | none
}

cjson_in_the_part_reader()
{
    including '[<"](cjson/|cJSON)' | grep -vE '^src/part/json[^/]*\.c$' | none
}

cairo_where_sheets_are_drawn()
{
    found=$(including '[<"]cairo' | grep -vE '^src/shop/sheet[^/]*\.c$')
    echo "$found" | grep -vE '^src/screen/[^/]*\.c$' | none && [ "$(echo "$found" | grep -c .)" -le 1 ]
}

engine_includes_no_document()
{
    # shellcheck disable=SC2046  # a list of words
    including '"(.*/)?(document[a-z_]*|field|file|frame)\.h"' $(engine_folders) | none
}

# A public header belongs to the room whose source of the same name includes it.  The rank of a room is
# its place in the chain; screen and command, last of all, may include each other.
arrows_run_one_way()
{
    grep -rE --include='*.[ch]' '^[[:space:]]*#[[:space:]]*include[[:space:]]*"' src include | awk -F '[:"]' '
        function room_of(path, parts, n)
        {
            n = split(path, parts, "/")
            sub(/\.[ch]$/, "", parts[n])
            return parts[n - 1] in rank ? parts[n - 1] : home[parts[n]]
        }
        BEGIN {
            n = split("base part shape laminate structure,flow check shop study screen,command", chain, " ")
            for (i = 1; i <= n; i++) {
                m = split(chain[i], beside, ",")
                for (j = 1; j <= m; j++)
                    rank[beside[j]] = i
            }
        }
        {
            file[NR] = $1
            header[NR] = index($3, "/") ? $3 : "plyloft/" $3
            split($1, parts, "/")
            sub(/\.c$/, "", parts[3])
            if ($3 == "plyloft/" parts[3] ".h")
                home[parts[3]] = parts[2]
        }
        END {
            for (i = 1; i <= NR; i++) {
                from = room_of(file[i])
                to = room_of(header[i])
                if (from && to && from != to && rank[to] >= rank[from] && rank[from] < n)
                    print file[i] " of " from " includes " header[i] " of " to
            }
        }' | none
}

symbols_start_with_pl()
{
    nm -g --defined-only "$library" 2>/dev/null | awk 'NF == 3 && $3 !~ /^_?pl_/ { print $3 }' | none
}

# Constant tables of pointers are moved once at start and then locked (.data.rel.ro): no state.
library_holds_no_state()
{
    nm -f sysv --defined-only "$library" 2>/dev/null |
        awk -F '|' '$7 ~ /^ *(\.t?bss|\.t?data|\*COM\*)/ && $7 !~ /\.data\.rel\.ro/ { print $1, $7 }' | none
}

# What an object or archive calls, one name a line, without the prefixes that hardening puts around them.
calls()
{
    [ ! -e "$1" ] || nm -u "$1" | sed -n "s|^ *[Uw] _*\([a-zA-Z0-9_]*\).*|\1|p" | sed "s|_chk\$||; s|\$| in $1|"
}

engine_touches_no_stream()
{
    streams='v?f?printf|v?dprintf|f?put(s|c)|putchar|f?get(s|c|line|delim)|f(re|d|mem)?open(64)?|popen|fread|fwrite'
    streams="$streams|(isoc.*_)?v?f?scanf|fseek.*|ftell.*|fclose|fflush|perror|tmpfile|stdin|stdout|stderr|open(64)?|read|write"
    for folder in $(engine_folders); do
        for source in "$folder"/*.c; do
            source=${source#src/}
            calls "$objects/${source%.c}.o"
        done
    done | grep -E "^($streams) in " | none
}

library_leaves_locale_and_error_handler()
{
    calls "$library" |
        grep -E '^(setlocale|gsl_set_error_handler.*|exit|abort|quick_exit) in ' | none
}

top_level_is_as_listed()
{
    git ls-files 2>/dev/null | sed 's|/.*||' | sort -u |
        grep -vxE '\..*|README\.md|DEVELOPERS\.md|LICENSE|Makefile|src|include|tests|samples|man' | none
}

trial "only the terminal file includes a curses header" curses_in_one_file
trial "only the part reader includes cJSON" cjson_in_the_part_reader
trial "cairo is included only where sheets and pictures are drawn" cairo_where_sheets_are_drawn
trial "the engine includes no document, field table, file or frame" engine_includes_no_document
trial "includes run one way through the rooms" arrows_run_one_way
trial "every external symbol of the library starts with pl_" symbols_start_with_pl
trial "the library holds no state" library_holds_no_state
trial "the engine touches no stream" engine_touches_no_stream
trial "the library leaves locale, error handler and process alone" library_leaves_locale_and_error_handler
trial "the top level holds what is listed" top_level_is_as_listed
end_trials
