#!/bin/sh
# The manual pages are well-formed mdoc: a page with a warning is a failed test.
set -u
. tests/house/trial.sh

trial "man/plyloft.1 is there" test -s man/plyloft.1
for page in man/*.[1-9]; do
    [ -e "$page" ] || continue
    trial "$page has no warning" mandoc -T lint -W warning "$page"
done
end_trials
