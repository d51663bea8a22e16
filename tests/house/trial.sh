# shellcheck shell=sh
# What the scripts of this folder share: `trial NAME COMMAND...` is one test, the name a sentence that
# is true or false, the command what decides.  Prints the lines that tests/run.sh counts.

trials_failed=0

trial()
{
    sentence=$1
    shift
    echo "[ RUN      ] $sentence"
    if "$@"; then
        echo "[       OK ] $sentence"
    else
        echo "[  FAILED  ] $sentence"
        trials_failed=$((trials_failed + 1))
    fi
}

end_trials()
{
    [ "$trials_failed" -eq 0 ]
    exit $?
}
