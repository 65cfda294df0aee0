#!/bin/sh
# Bring the system synthesiser and a General MIDI SoundFont, where this account may install packages.
# Without them shedbook plays through a synthesiser and a smaller font that its Python packages carry.
set -u

ready() { ldconfig -p 2>/dev/null | grep -q 'libfluidsynth\.so\.3' && [ -f /usr/share/sounds/sf2/FluidR3_GM.sf2 ]; }

ready && exit 0
if command -v apt-get >/dev/null && [ "$(id -u)" = 0 ]; then
    apt-get update -qq >/dev/null 2>&1
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        libfluidsynth3 fluid-soundfont-gm >/dev/null 2>&1
    ready && exit 0
fi
echo "Sound: the system synthesiser or its font is missing; the smaller font of a Python package is used."
echo "For a better sound install FluidSynth 2 and the FluidR3 General MIDI SoundFont"
echo "(Debian: apt-get install libfluidsynth3 fluid-soundfont-gm)."
exit 0
