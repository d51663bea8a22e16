#!/bin/sh
# The manual pages are well-formed mdoc: a page with a warning is a failed test.
set -u
. tests/house/trial.sh

for page in man/plyloft.1 man/plyloft-part.5 man/plyloft-theory.7; do
    trial "$page is there" test -s "$page"
done
for page in man/*.[1-9]; do
    [ -e "$page" ] || continue
    trial "$page has no warning" mandoc -T lint -W warning "$page"
done
end_trials
