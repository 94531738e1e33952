# Makes or renews a virtual environment from a lock file; sourced by try and test. Needs $root.
# make_venv FOLDER LOCK...: with uv where it is present, else with Python's own venv and pip.

locks() {
    for lock in "$@"; do
        printf ' -r %s' "$lock"
    done
}

make_venv() {
    folder=$1
    shift
    wanted=$(cat "$@" "$root/pyproject.toml" | cksum; command -v python3)
    if [ -x "$folder/bin/pegline" ] && [ "$(cat "$folder/.made-from" 2>/dev/null)" = "$wanted" ]; then
        return 0
    fi
    python3 -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "Python 3.11 or newer is needed" >&2; exit 1; }
    python3 -c 'import sys; sys.exit(sys.maxsize < 2**32)' || { echo "A 64-bit system is needed: the database drivers come in no other" >&2; exit 1; }
    echo "Setting up $folder once ..." >&2
    rm -rf "$folder"
    if command -v uv >/dev/null 2>&1; then
        uv venv --quiet --python "$(command -v python3)" "$folder"
        uv pip install --quiet --python "$folder/bin/python" --require-hashes $(locks "$@")
        uv pip install --quiet --python "$folder/bin/python" --no-deps --no-build-isolation --config-settings editable_mode=compat -e "$root"
    else
        if ! python3 -c 'import ensurepip, venv' 2>/dev/null; then
            if [ "$(id -u)" != 0 ]; then
                echo "Python's venv is missing: install the package python3-venv, or uv" >&2
                exit 1
            fi
            apt-get install -y -qq python3-venv >&2
        fi
        python3 -m venv "$folder"
        "$folder/bin/python" -m pip install --quiet --disable-pip-version-check --require-hashes $(locks "$@")
        "$folder/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --config-settings editable_mode=compat -e "$root"
    fi
    printf '%s' "$wanted" >"$folder/.made-from"
}
