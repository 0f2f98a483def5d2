# Runs as root in a clean Debian system that has /packages/former.deb and /packages/current.deb.
set -eu
export DEBIAN_FRONTEND=noninteractive

step() { echo "-- $*"; }
fail() { echo "package-test: $*" >&2; exit 1; }
weaver() { su weaver -s /bin/sh -c "$*"; }
fell() { weaver "fell --folder $folder --device laptop $*"; }

# Opens the window on a display of its own and waits until it is shown.
window() {
    weaver "timeout 60 xvfb-run -a sh -c '
        TAURI_WEBVIEW_AUTOMATION=true fellmark --folder $folder >/tmp/window.out 2>&1 &
        program=\$!
        for try in \$(seq 100); do
            sleep 0.3
            kill -0 \$program || exit 1
            if xwininfo -root -tree | grep -q \"\\\"Fellmark\\\".*1100x820\"; then
                # No other program may steer it, whatever the surroundings say.
                ! grep -q TAURI_WEBVIEW_AUTOMATION /proc/\$program/environ || exit 1
                kill \$program
                exit 0
            fi
        done
        exit 1'" || { cat /tmp/window.out >&2; fail "the window was not shown"; }
}

id weaver >/dev/null 2>&1 || useradd --create-home weaver
home=$(getent passwd weaver | cut -d: -f6)
folder=$home/Weaving
rm -rf "$folder" "$home/.local" "$home/.cache"
apt-get update -qq
step "install"
apt-get purge -y -qq fellmark >/dev/null 2>&1 || true
apt-get install -y -qq -o Dpkg::Use-Pty=0 --no-install-recommends xvfb xauth x11-utils /packages/former.deb >/tmp/apt.out 2>&1 ||
    { cat /tmp/apt.out >&2; fail "the package could not be installed"; }
[ -s /usr/share/man/man1/fell.1.gz ] || [ -d /usr/share/man ] || fail "no manual page"
[ "$(fell --version)" ] || fail "fell does not start"

step "a sitting before the upgrade"
weaver "mkdir -p $folder"
fell "begin Scarf" >/dev/null
fell "log Scarf --picks 40 --minutes 30" >/dev/null
window
before=$(fell "export everything")

step "upgrade"
apt-get install -y -qq -o Dpkg::Use-Pty=0 /packages/current.deb >/tmp/apt.out 2>&1 || { cat /tmp/apt.out >&2; fail "no upgrade"; }
[ "$(fell 'export everything')" = "$before" ] || fail "the log is not the same after the upgrade"
fell "log Scarf --picks 44 --minutes 30" >/dev/null
[ "$(ls "$folder/devices" | wc -l)" = 1 ] || fail "the upgrade made a new device"
window

step "no display"
if weaver "fellmark" >/tmp/window.out 2>&1; then fail "the window claims to open without a display"; fi
grep -q "could not be opened" /tmp/window.out || { cat /tmp/window.out >&2; fail "no sentence without a display"; }
if grep -q panicked /tmp/window.out; then cat /tmp/window.out >&2; fail "a panic without a display"; fi

step "remove"
after=$(cat $(find "$folder" -type f | sort) | sha256sum)
apt-get purge -y -qq fellmark >/dev/null 2>&1
[ ! -e /usr/bin/fellmark ] && [ ! -e /usr/bin/fell ] || fail "a program is left"
[ -z "$(find /usr/share -iname '*fellmark*')" ] || fail "files are left: $(find /usr/share -iname '*fellmark*')"
[ "$(cat $(find "$folder" -type f | sort) | sha256sum)" = "$after" ] || fail "the weaver's folder changed"
step "installed, used, upgraded and removed; the weaver's folder stayed as it was"
