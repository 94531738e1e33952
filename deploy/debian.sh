# Installs what the tests want of Debian; sourced by deploy/test.
# need_debian PACKAGE PATH...: installs the package where no file fits any of the paths.

need_debian() {
    package=$1
    shift
    for wanted in "$@"; do
        [ -e "$wanted" ] && return 0
    done
    if [ "$(id -u)" != 0 ]; then
        echo "The package $package is missing: install it, or run this once as root" >&2
        exit 1
    fi
    echo "Installing $package once ..." >&2
    apt-get update -qq >&2
    # the server of its own is not wanted: the tests start theirs in a folder of their own and stop it
    DEBIAN_FRONTEND=noninteractive RUNLEVEL=1 apt-get install -y -qq --no-install-recommends "$package" >&2
}
