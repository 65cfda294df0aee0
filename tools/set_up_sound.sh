#!/bin/sh
# Bring the system synthesiser and a General MIDI SoundFont, and say at the end what will sound.
# As root on Debian both come as packages. Without root the font alone is fetched as a package and laid into
# the home folder. Usage: sh tools/set_up_sound.sh PYTHON, the Python that shedbook is installed in.
set -u
python=${1:-python3}
own=$HOME/.local/share/soundfonts/FluidR3_GM.sf2

# Whether the library is there is asked by loading it: a path of tools such as ldconfig is not needed.
synth() { "$python" -c 'import ctypes; ctypes.CDLL("libfluidsynth.so.3")' 2>/dev/null ||
    "$python" -c 'import ctypes.util, sys; sys.exit(not ctypes.util.find_library("fluidsynth"))'; }
font() { [ -f /usr/share/sounds/sf2/FluidR3_GM.sf2 ] || [ -f "$own" ]; }

{ synth && font; } && exit 0
if command -v apt-get >/dev/null && [ "$(id -u)" = 0 ]; then
    apt-get update -qq >/dev/null 2>&1
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        libfluidsynth3 fluid-soundfont-gm >/dev/null 2>&1
elif command -v apt-get >/dev/null && command -v dpkg-deb >/dev/null && ! font; then
    work=$(mktemp -d)
    if (cd "$work" && apt-get download -qq fluid-soundfont-gm >/dev/null 2>&1 && dpkg-deb -x ./*.deb .); then
        mkdir -p "$(dirname "$own")" && mv "$work/usr/share/sounds/sf2/FluidR3_GM.sf2" "$own"
    fi
    rm -rf "$work"
fi
synth || echo "Sound: the synthesiser that came with shedbook plays; FluidSynth 2 plays better (Debian:" \
    "apt-get install libfluidsynth3, macOS: brew install fluid-synth)."
font || echo "Sound: no SoundFont was found. Tracks are MIDI files until there is one: shedbook setup says how."
exit 0
