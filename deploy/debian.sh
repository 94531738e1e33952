# need_debian PACKAGE...: installs Debian packages that are missing; sourced by test. Without root it says what to install.

need_debian() {
    missing=
    for package in "$@"; do
        dpkg -s "$package" >/dev/null 2>&1 || missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    if ! command -v apt-get >/dev/null 2>&1; then
        echo "The tests run against packages of Debian; missing here:$missing" >&2
        exit 1
    fi
    if [ "$(id -u)" != 0 ]; then
        echo "Missing: apt-get install --no-install-recommends$missing   (or run this once as root)" >&2
        exit 1
    fi
    echo "Installing$missing once ..." >&2
    install_debian $missing || { apt-get update -qq >&2 && install_debian $missing; }
}

install_debian() ( # the tests start their own: a policy of "do not start" keeps the packages' services down meanwhile
    policy=/usr/sbin/policy-rc.d
    if [ ! -e "$policy" ]; then
        trap 'rm -f "$policy"' EXIT
        printf '#!/bin/sh\nexit 101\n' >"$policy"
        chmod 755 "$policy"
    fi
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >&2
)
