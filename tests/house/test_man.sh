#!/bin/sh
# The manual pages are well-formed mdoc: a page with a warning is a failed test.  The keys of a part file stand in
# their page as the table of fields has them (`make man` writes them).  LIBRARY names the library built, the tool
# that writes the keys beside it.
# shellcheck disable=SC2317  # the function is called by name
set -u
. tests/house/trial.sh

library=${LIBRARY:-build/libplyloft.a}

keys_are_those_of_the_table()
{
    "${library%/*}/tests/tools/field_reference" <"$1" | diff "$1" -
}

for page in plyloft.1 plyloft-part.5 plyloft-theory.7; do
    trial "man/$page is there" test -s "man/$page"
done
for page in man/*.[1-9]; do
    [ -e "$page" ] || continue
    trial "$page has no warning" mandoc -T lint -W warning "$page"
done
trial "man/plyloft-part.5 has the keys of the table of fields" keys_are_those_of_the_table man/plyloft-part.5
end_trials
