#!/bin/sh
# Runs test programs one after another and closes with one line: N passed, N failed.
#
#     tests/run.sh build/tests/part/test_document tests/house/test_rules.sh ...
#
# Counts the test functions in what a program prints (cmocka's lines; the scripts in tests/house
# print the same).  A program that dies, fails outside its tests or runs none counts as one failed
# test.  `published` is counted by its own closing line.  Only a failing program's output is shown.
#
# Programs get no terminal, folders of their own for what they keep (HOME, TMPDIR,
# XDG_STATE_HOME), and in PLYLOFT the program built beside them.  RUN_UNDER puts a command
# in front of each, TEST_SECONDS is how long one may take.
set -u
cd "$(dirname "$0")/.." || exit 1

scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT
trap 'exit 130' INT TERM

unset NO_COLOR ESCDELAY COLUMNS LINES
export CMOCKA_MESSAGE_OUTPUT=stdout
export ASAN_OPTIONS="${ASAN_OPTIONS:-detect_leaks=1:detect_stack_use_after_return=1:strict_string_checks=1}"
export UBSAN_OPTIONS="${UBSAN_OPTIONS:-print_stacktrace=1}"
limit=
command -v timeout >/dev/null 2>&1 && limit="timeout ${TEST_SECONDS:-300}"

# Prints "passed failed skipped".  A test that began and did not end well has failed, so a crash in the
# middle is counted even when the closing lines never came.
count()
{
    awk -v status="$2" '
        index($0, "[ RUN      ] ")   { ran++ }
        index($0, "[       OK ] ")   { passed++ }
        index($0, "[  SKIPPED ] ") && !/listed below/ && !closing { skipped++ }
        /^\[==========\].*[0-9]+ test\(s\) run/ { closing = 1 }
        /^\[==========\].*Running /               { closing = 0 }
        index($0, "[  FAILED  ] GROUP ") { outside++ }
        /^[0-9]+ of [0-9]+ within band/ { ran += $3; passed += $1 }
        END {
            failed = ran - passed - skipped
            if (failed == 0 && (outside || status != 0 || ran == 0))
                failed = 1
            print passed + 0, failed, skipped + 0
        }' "$1"
}

run_one()
{
    mkdir -p "$scratch/home" "$scratch/tmp" "$scratch/state"
    case "$1" in
    */tests/*) tree=${1%%/tests/*} ;;
    *) tree=build ;;
    esac
    # shellcheck disable=SC2086  # lists of words
    HOME=$scratch/home TMPDIR=$scratch/tmp XDG_STATE_HOME=$scratch/state PLYLOFT=$tree/plyloft \
        $limit ${RUN_UNDER:-} "$1" >"$scratch/output" 2>&1 </dev/null
    status=$?
    rm -rf "${scratch:?}/home" "$scratch/tmp" "$scratch/state"
}

passed=0 failed=0 skipped=0
for program in "$@"; do
    run_one "$program"
    # shellcheck disable=SC2046  # three numbers
    set -- $(count "$scratch/output" "$status")
    passed=$((passed + $1)) failed=$((failed + $2)) skipped=$((skipped + $3))
    if [ "$2" -gt 0 ]; then
        cat "$scratch/output"
        echo
        echo "FAILED  $program: $2 of $(($1 + $2)) failed, exit status $status"
    else
        echo "ok      $program: $1"
    fi
done

if [ $((passed + failed)) -eq 0 ]; then
    echo "No test was run." >&2
    failed=1
fi
if [ "$skipped" -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ "$failed" -eq 0 ]
