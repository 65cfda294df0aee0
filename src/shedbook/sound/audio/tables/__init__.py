"""Tables of audio: formats, the loudness meter, SoundFonts, programs that play a file."""
