#!/bin/sh
# The runner of the tests counts what it must and never calls a failure a success.
# shellcheck disable=SC2317  # the functions are called by name
set -u
. tests/house/trial.sh

box=$(mktemp -d) || exit 1
trap 'rm -rf "$box"' EXIT

# A program of that name that prints those lines and ends with that status (or "kill": by a signal).
program()
{
    name=$1 status=$2
    shift 2
    {
        echo '#!/bin/sh'
        for line in "$@"; do
            echo "echo '$line'"
        done
        [ "$status" = kill ] && echo 'kill -ABRT $$' || echo "exit $status"
    } >"$box/$name"
    chmod +x "$box/$name"
}

# STATUS LINE NAME...: running those programs ends with that status and closes with that line.
closes_with()
{
    want=$1 line=$2
    shift 2
    for name in "$@"; do
        set -- "$@" "$box/$name"
        shift
    done
    # Only the end is shown: the rest would be counted as tests of this script.
    tests/run.sh "$@" >"$box/output" 2>/dev/null
    got=$?
    echo "status $got, $(tail -n 1 "$box/output")"
    [ "$got" -eq "$want" ] && [ "$(tail -n 1 "$box/output")" = "$line" ]
}

program good 0 '[==========] Running 2 test(s).' '[ RUN      ] a' '[       OK ] a' '[ RUN      ] b' 'half [       OK ] b' \
    '[==========] 2 test(s) run.' '[  PASSED  ] 2 test(s).'
program bad 1 '[==========] Running 2 test(s).' '[ RUN      ] a' '[       OK ] a' '[ RUN      ] b' '[  FAILED  ] b' \
    '[==========] 2 test(s) run.' '[  PASSED  ] 1 test(s).' '[  FAILED  ] 1 test(s), listed below:' '[  FAILED  ] b'
program skips 0 '[==========] Running 2 test(s).' '[ RUN      ] a' '[       OK ] a' '[ RUN      ] b' '[  SKIPPED ] b' \
    '[==========] 2 test(s) run.' '[  PASSED  ] 1 test(s).' '[  SKIPPED ] 1 test(s), listed below:' '[  SKIPPED ] b'
program dies kill '[ RUN      ] a' '[       OK ] a' '[ RUN      ] b'
program leaks 1 '[ RUN      ] a' '[       OK ] a'
program empty 0
program group 0 '[ RUN      ] a' '[       OK ] a' '[  FAILED  ] GROUP TEARDOWN'
program band 0 '6 of 6 within band'
program out 1 '5 of 6 within band'

trial "passing tests are summed" closes_with 0 "4 passed, 0 failed" good good
trial "a failing test is counted" closes_with 1 "3 passed, 1 failed" good bad
trial "a skipped test is neither" closes_with 0 "1 passed, 0 failed, 1 skipped" skips
trial "a program that dies in a test fails it" closes_with 1 "3 passed, 1 failed" good dies
trial "a program that ends badly after its tests has failed" closes_with 1 "1 passed, 1 failed" leaks
trial "a program that runs no test has failed" closes_with 1 "0 passed, 1 failed" empty
trial "a program that is not there has failed" closes_with 1 "2 passed, 1 failed" absent good
trial "a group that cannot be taken down has failed" closes_with 1 "1 passed, 1 failed" group
trial "figures within their band are counted" closes_with 0 "6 passed, 0 failed" band
trial "a figure out of its band has failed" closes_with 1 "5 passed, 1 failed" out
trial "no program at all is a failure" closes_with 1 "0 passed, 1 failed"
end_trials
