#!/bin/sh
# The set-up script with stand-ins for every package manager, sudo and id: nothing is installed here.
#
# PATH holds a folder of stand-ins and the three commands the script may count on.  A stand-in manager
# writes down how it was called and, when it installs, puts the tools into that folder and the
# libraries where the stand-in pkg-config sees them.
# shellcheck disable=SC2016,SC2317  # stand-ins expand for themselves; the functions are called by name
set -u
. tests/house/trial.sh

setup=$PWD/.ci/setup
box=$(mktemp -d) || exit 1
trap 'rm -rf "$box"' EXIT
export box

tools="cc make pkg-config mandoc valgrind"
libraries="ncursesw libcjson gsl cairo-pdf cmocka sanitizers"

# Writes an executable of that name into that folder, its text from standard input.
stand_in()
{
    { echo '#!/bin/sh' && cat; } >"$1/$2"
    chmod +x "$1/$2"
}

# A machine with that package manager ("none" for none), that user and those of the tools and libraries.
machine()
{
    manager=$1 user=$2
    shift 2
    rm -rf "${box:?}"/*
    mkdir "$box/bin" "$box/tools" "$box/libraries"
    for basic in mktemp rm env; do
        ln -s "$(command -v "$basic")" "$box/bin/$basic"
    done
    echo "echo $user" | stand_in "$box/bin" id
    for tool in $tools; do
        echo 'exit 0' | stand_in "$box/tools" "$tool"
    done
    stand_in "$box/tools" cc <<'EOT'
case "$1" in
-fsanitize=*) [ -e "$box/libraries/sanitizers" ] ;;
esac
EOT
    echo '[ "$1" = --exists ] && [ -e "$box/libraries/$2" ]' | stand_in "$box/tools" pkg-config
    for thing in "$@"; do
        case " $tools " in
        *" $thing "*) cp "$box/tools/$thing" "$box/bin" ;;
        *) : >"$box/libraries/$thing" ;;
        esac
    done
    [ "$manager" = none ] || stand_in "$box/bin" "$manager" <<EOT
[ "\$1" = --prefix ] && exit 0
printf '%s\n' "\${DEBIAN_FRONTEND:+quiet }$manager \$*" >>"\$box/calls"
[ "\$1" = update ] && exit "\$([ ! -e "\$box/lists-are-broken" ]; echo "\$?")"
if [ -e "\$box/refusals" ]; then
    $(command -v rm) "\$box/refusals"
    exit 1
fi
[ ! -e "\$box/brings-nothing" ] || exit 0
$(command -v cp) "\$box/tools/"* "\$box/bin"
for library in $libraries; do
    : >"\$box/libraries/\$library"
done
EOT
}

with_sudo()
{
    echo 'printf "sudo " >>"$box/calls"; exec "$@"' | stand_in "$box/bin" sudo
}

set_up()
{
    PATH=$box/bin CC='' DEBIAN_FRONTEND='' /bin/sh "$setup" "$1" >"$box/said" 2>"$box/complained" </dev/null
}

# What the managers were asked for is just these lines.
calls_are()
{
    printf '%s\n' "$@" >"$box/expected"
    diff "$box/expected" "$box/calls"
}

said()
{
    cat "$box/said" "$box/complained"
    grep -qF "$1" "$box/said" "$box/complained"
}

all_there_is_silent()
{
    for word in run check slow; do
        # shellcheck disable=SC2086  # lists of words
        machine apt-get 1000 $tools $libraries
        set_up "$word" && [ ! -e "$box/calls" ] && [ ! -s "$box/said" ] && [ ! -s "$box/complained" ] || return 1
    done
}

# MANAGER USER LINE...: on a machine with nothing, `setup check` ends well with those calls.
bare_machine_asks()
{
    machine "$1" "$2"
    with_sudo
    shift 2
    set_up check && calls_are "$@"
}

pacman_refreshes_when_refused()
{
    machine pacman 0
    : >"$box/refusals"
    set_up run && calls_are "pacman -S --needed --noconfirm gcc make pkgconf ncurses cjson gsl cairo ttf-dejavu" \
        "pacman -Sy --needed --noconfirm gcc make pkgconf ncurses cjson gsl cairo ttf-dejavu"
}

apt_goes_on_with_old_lists()
{
    machine apt-get 0 cc make pkg-config ncursesw libcjson cairo-pdf
    : >"$box/lists-are-broken"
    set_up run && calls_are "apt-get update" "quiet apt-get install -y libgsl-dev"
}

only_the_missing_one()
{
    machine dnf 0 cc make pkg-config ncursesw libcjson cairo-pdf
    set_up run && calls_are "dnf install -y pkgconfig(gsl)" && said "Installing with dnf: pkgconfig(gsl)"
}

run_needs_no_test_tools()
{
    machine apt-get 0 cc make pkg-config ncursesw libcjson gsl cairo-pdf
    set_up run && [ ! -e "$box/calls" ]
}

slow_brings_valgrind()
{
    machine zypper 0 cc make pkg-config mandoc ncursesw libcjson gsl cairo-pdf cmocka sanitizers
    set_up slow && calls_are "zypper --non-interactive install valgrind"
}

no_manager_is_told()
{
    machine none 0 cc make
    ! set_up run && said "Missing: pkg-config ncursesw libcjson gsl cairo-pdf. No package manager known here"
}

no_sudo_is_told()
{
    machine apk 1000 cc make pkg-config ncursesw libcjson cairo-pdf
    ! set_up run && [ ! -e "$box/calls" ] && said "as root, with apk: gsl-dev"
}

failed_installation_is_told()
{
    machine apt-get 0 cc make pkg-config ncursesw libcjson cairo-pdf
    : >"$box/brings-nothing"
    ! set_up run && said "Still missing after the installation: gsl."
}

unknown_word_is_refused()
{
    machine apt-get 0
    set_up paint
    [ $? -eq 2 ] && [ ! -e "$box/calls" ] && said "usage:"
}

DEB="gcc libc6-dev make pkg-config libncurses-dev libcjson-dev libgsl-dev libcairo2-dev fonts-dejavu-core"
DEB="$DEB libcmocka-dev mandoc"
PC="pkgconfig(ncursesw) pkgconfig(libcjson) pkgconfig(gsl)"
DNF="dnf install -y gcc make pkgconf-pkg-config $PC cairo-devel dejavu-sans-fonts pkgconfig(cmocka) mandoc"
DNF="$DNF libasan libubsan"
PACMAN="pacman -S --needed --noconfirm gcc make pkgconf ncurses cjson gsl cairo ttf-dejavu cmocka mandoc"
ZYPPER="zypper --non-interactive install gcc make pkg-config $PC cairo-devel dejavu-fonts pkgconfig(cmocka) mandoc"
APK="apk add --no-cache gcc musl-dev make pkgconf ncurses-dev cjson-dev gsl-dev cairo-dev font-dejavu"
APK="$APK cmocka-dev mandoc clang compiler-rt"
BREW="brew install gcc make pkgconf ncurses cjson gsl cairo cmocka mandoc"

trial "nothing is said or asked when all is there" all_there_is_silent
trial "apt-get refreshes its lists, then installs without questions" \
    bare_machine_asks apt-get 0 "apt-get update" "quiet apt-get install -y $DEB"
trial "apt-get is called through sudo when not root" \
    bare_machine_asks apt-get 1000 "sudo apt-get update" "sudo quiet apt-get install -y $DEB"
trial "apt-get installs although a list could not be refreshed" apt_goes_on_with_old_lists
trial "dnf installs as root" bare_machine_asks dnf 0 "$DNF"
trial "dnf is called through sudo when not root" bare_machine_asks dnf 1000 "sudo $DNF"
trial "pacman installs as root" bare_machine_asks pacman 0 "$PACMAN"
trial "pacman is called through sudo when not root" bare_machine_asks pacman 1000 "sudo $PACMAN"
trial "pacman fetches its lists when it knows none" pacman_refreshes_when_refused
trial "zypper installs as root" bare_machine_asks zypper 0 "$ZYPPER"
trial "zypper is called through sudo when not root" bare_machine_asks zypper 1000 "sudo $ZYPPER"
trial "apk installs as root" bare_machine_asks apk 0 "$APK"
trial "apk is called through sudo when not root" bare_machine_asks apk 1000 "sudo $APK"
trial "brew installs as the user" bare_machine_asks brew 1000 "$BREW"
trial "brew is not called through sudo by root either" bare_machine_asks brew 0 "$BREW"
trial "only what is missing is installed, and named first" only_the_missing_one
trial "running needs no tools for tests" run_needs_no_test_tools
trial "the long trials bring valgrind" slow_brings_valgrind
trial "a machine without a known package manager is told so" no_manager_is_told
trial "a user without sudo is told what to install" no_sudo_is_told
trial "an installation that brought nothing is told" failed_installation_is_told
trial "an unknown word is refused" unknown_word_is_refused
end_trials
