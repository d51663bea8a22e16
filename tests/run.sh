#!/bin/sh
# Runs test programs, as many at a time as there are processors, and closes with one line: N passed, N failed.
#
#     tests/run.sh build/tests/part/test_document tests/house/test_rules.sh ...
#
# Counts the test functions in what a program prints (cmocka's lines; the scripts in tests/house
# print the same).  A program that dies, fails outside its tests or runs none counts as one failed
# test.  `published` is counted by its own closing line.  Only a failing program's output is shown.
#
# Programs get no terminal, folders of their own for what they keep (HOME, TMPDIR,
# XDG_STATE_HOME), and in PLYLOFT the program built beside them.  RUN_UNDER puts a command
# in front of each, TEST_SECONDS is how long one may take, TEST_JOBS how many run at a time.
set -u
cd "$(dirname "$0")/.." || exit 1

scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT
trap 'exit 130' INT TERM

unset NO_COLOR ESCDELAY COLUMNS LINES
export CMOCKA_MESSAGE_OUTPUT=stdout
export ASAN_OPTIONS="${ASAN_OPTIONS:-detect_leaks=1:detect_stack_use_after_return=1:strict_string_checks=1}"
export LSAN_OPTIONS="${LSAN_OPTIONS:-print_suppressions=0:suppressions=$PWD/tests/leaks.asan}"
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

# run_one PROGRAM FOLDER: its output and exit status into the folder.
run_one()
{
    mkdir -p "$2/home" "$2/tmp" "$2/state"
    case "$1" in
    */tests/*) tree=${1%%/tests/*} ;;
    *) tree=build ;;
    esac
    # shellcheck disable=SC2086  # lists of words
    HOME=$2/home TMPDIR=$2/tmp XDG_STATE_HOME=$2/state PLYLOFT=$tree/plyloft \
        $limit ${RUN_UNDER:-} "$1" >"$2/output" 2>&1 </dev/null
    status=$?
    rm -rf "${2:?}/home" "$2/tmp" "$2/state"
}

# What is said of one program, all at once, so that two workers' lines do not mix.
tell()
{
    # shellcheck disable=SC2046  # three numbers
    set -- "$1" "$2" $(count "$2/output" "$status")
    echo "$3 $4 $5" >"$2/counts"
    if [ "$4" -gt 0 ]; then
        { cat "$2/output"; echo; echo "FAILED  $1: $4 of $(($3 + $4)) failed, exit status $status"; } >"$2/told"
    else
        echo "ok      $1: $3" >"$2/told"
    fi
    cat "$2/told"
}

# Takes whichever program no other worker has taken: a folder can be made only once.
worker()
{
    number=0
    for program in "$@"; do
        number=$((number + 1))
        mkdir "$scratch/$number" 2>/dev/null || continue
        run_one "$program" "$scratch/$number"
        tell "$program" "$scratch/$number"
    done
}

jobs=${TEST_JOBS:-$(getconf _NPROCESSORS_ONLN 2>/dev/null || echo 2)}
while [ "$jobs" -gt 1 ]; do
    worker "$@" &
    jobs=$((jobs - 1))
done
worker "$@"
wait

passed=0 failed=0 skipped=0 told=0
for counts in "$scratch"/*/counts; do
    [ -f "$counts" ] || continue
    told=$((told + 1))
    read -r some_passed some_failed some_skipped <"$counts"
    passed=$((passed + some_passed)) failed=$((failed + some_failed)) skipped=$((skipped + some_skipped))
done
if [ "$told" -lt "$#" ]; then
    echo "$(($# - told)) programs were begun and never told of" >&2
    failed=$((failed + $# - told))
fi

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
