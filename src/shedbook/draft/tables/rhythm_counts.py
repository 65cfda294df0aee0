"""How often one beat follows another in real lines, by feel and tempo.

Written by `python -m tools.draft_rhythms`; do not edit. A table is named by feel and by 0 for beats 1 and
3 or 1 for beats 2 and 4; a row is a beat and, after ">", what follows it on such a beat and how often. In a
cell "o" is a note struck, "-" one that goes on, "." silence, a letter for each part of the beat. "slow" is
swing under 112 quarters a minute, "fast" from 208 on, "even" is Latin and funk.
Source: 35522 beats of two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside
the Jazzomat, 2017; Open Database Licence); counts only.
"""

from __future__ import annotations

from typing import Final

# fmt: off
FOLLOWS: Final[dict[str, str]] = {
    "even 0": """
- > -:98 .:89 o:36 oo:25 -o:12 .o:12 oooo:6 ooo-:6
--oo > -:7 oo:7 oooo:4 -o:3 ooo:3
-o > oo:48 -:38 -o:38 o:37 .:12 oooo:8 ooo-:6 ooo:6 -oo:6 o-oo:6 --oo:3
-oo > -:6 -o:6 oo:6 ooo:5 o:3
-ooo > oooo:13 ooo-:5 -ooo:5 oo:4 -:4 -o:4 ooo:4
. > .:262 .o:48 oo:47 .ooo:17 ooo:17 o:16 oooo:11 ..oo:11 ooo-:6 o-oo:4 .oo:3
..oo > oooo:4
.o > oo:31 -o:17 o:14 -:5 ooo:4 .:4 -ooo:3 oooo:3 ooo-:3 o-oo:3
.ooo > oooo:4
o > .:58 o:48 -:33 .o:20 oo:20 -o:7 oooo:5 ooo-:3 ooo:3 -ooo:3
o-oo > oo:8 -o:4 o:3 -:3
oo > oo:154 o:66 -o:46 -:38 .:23 ooo:19 ooo-:10 o-oo:9 -ooo:8 oooo:8 -oo:6 --oo:5
ooo > ooo:39 oo:14 o:13 -:12 oooo:8 .:8 -o:7 -ooo:3 --oo:3 o-oo:3
ooo- > .:10 oo:7 -o:6 --oo:4 oooo:3 o:3 ooo:3
oooo > oooo:87 oo:15 o:14 ooo:12 ooo-:10 -ooo:5 -o:4 o-oo:3 .:3 --oo:3
""",
    "even 1": """
- > -:100 .:86 -o:27 o:14 oo:13 .o:11 ooo-:4 ooo:3 --oo:3
--oo > oooo:9 -:5 ooo:5
-o > oo:49 o:37 -o:36 -:29 ooo:13 oooo:7 .:5 --oo:4 -oo:4 ooo-:3
-oo > ooo:10 o:4 -:3
-ooo > oooo:18 o:8 oo:5 -ooo:4 -:3 ooo:3
. > .:303 .o:66 oo:24 .ooo:11 o:11 .oo:8 ooo:8 oooo:8 ..oo:6 o-oo:3
..oo > oooo:3
.o > oo:30 o:9 -o:7 oooo:7 -:6 ooo:5 --oo:4
.oo > ooo:3
.ooo > oooo:8
o > .:54 -:52 oo:48 o:43 -o:40 .o:20 ooo:4 -oo:3 oooo:3
o-oo > -:9 oo:5 -o:5 oooo:4 -ooo:3
oo > oo:168 -o:54 -:53 o:44 .:17 ooo:9 o-oo:8 oooo:7 -oo:7 --oo:6 -ooo:5 ooo-:5
ooo > ooo:36 oo:22 o:11 -o:9 oooo:7 -:7 -oo:6 --oo:4 o-oo:3
ooo- > .:14 oo:11 -o:7 -:7 oooo:6 ooo:3
oooo > oooo:84 oo:13 ooo-:12 ooo:11 o:10 -:9 -o:5 o-oo:5
""",
    "fast 0": """
- > .:207 -:198 o:143 oo:123 -o:28 .o:21 ooo:9 o-oo:4 --oo:4 -oo:3
--oo > -o:20 oo:13 o:11 -oo:10 -:6 --oo:5
-o > oo:342 -o:231 -:184 o:158 .:47 ooo:43 o-oo:17 -oo:15 oooo:7 -ooo:3
-oo > oo:63 -o:36 -:19 o:17 -oo:13 ooo:12 o-oo:4 --oo:4
-ooo > oo:10 -:7 o:5 -oo:3 -o:3 oooo:3 ooo:3
. > .:644 oo:204 .o:188 o:139 ooo:20 .oo:17 o-oo:12 ..oo:12 .ooo:12 oooo:7
..oo > oo:6 -o:6 -:5
.o > oo:90 -o:83 o:60 -:45 .:22 ooo:11 -oo:11 --oo:4
.oo > oo:5 -o:4 -:4 o:3
o > o:328 oo:242 .:139 -:97 ooo:37 .o:35 -o:31 -oo:10 o-oo:5 ooo-:5
o-oo > -o:55 oo:25 -:14 -oo:12 o:9 --oo:6 ooo:6
oo > oo:1694 o:394 -o:246 -:176 ooo:89 o-oo:76 -oo:57 .:50 oooo:16 -ooo:14 ooo-:9 --oo:6
ooo > oo:80 o:35 ooo:26 -o:25 -:20 o-oo:12 oooo:10 -oo:8 ooo-:5 .:3
ooo- > oo:9 ooo:5 o:3
oooo > oooo:25 ooo:13 oo:12 -o:11 o:9 -oo:4 o-oo:3
""",
    "fast 1": """
- > .:222 -:196 oo:93 -o:92 o:83 .o:54 --oo:9 -ooo:9 -oo:8 ooo:6 o-oo:5 oooo:3
--oo > -o:15 oo:8 -oo:4 -:3
-o > oo:247 -o:216 -:117 o:87 .:53 ooo:25 o-oo:21 -oo:14 --oo:7 -ooo:5 oooo:3
-oo > oo:64 -o:34 o:19 -:12 -oo:12 ooo:7
-ooo > oo:6 -oo:6 o:5 -:4 -o:3 ooo:3
. > .:672 .o:192 oo:114 o:49 ..oo:18 .oo:18 ooo:15 oooo:10 o-oo:9
..oo > oo:4 oooo:3 -o:3
.o > oo:97 -o:49 o:27 ooo:18 -:11 .:11 -oo:10 oooo:6 -ooo:3
.oo > oo:5 o:4 -o:3
.ooo > oo:6
o > o:307 oo:258 .:232 -o:200 -:157 .o:89 ooo:28 -oo:19 --oo:9 o-oo:7 oooo:5 ooo-:5 -ooo:3
o-oo > -o:50 oo:35 -oo:12 -:12 --oo:12 ooo:6 o:5
oo > oo:1757 -o:316 o:293 -:190 .:89 ooo:87 o-oo:74 -oo:64 --oo:21 -ooo:11 oooo:9 ooo-:7
ooo > oo:101 o:43 -o:38 ooo:23 -:21 oooo:13 -oo:13 o-oo:8 .:8 -ooo:4 ooo-:3
ooo- > oo:7 o:6 oooo:3
oooo > oooo:22 oo:12 ooo:10 o:7 -o:6 -:5 --oo:3 o-oo:3
""",
    "slow 0": """
- > .:47 -:21 oo:5 o:5 ..oo:5 -o:4 oooo:4 .o:3
--oo > oooo:6 o:3
-o > o:10 ooo:5 ooo-:4 oooo:4 oo:4 -:4 -o:4
-oo > ooo:4 oo:4
-ooo > -:7 oooo:7 o:4 ooo:4 -o:4 ooo-:3 oo:3
. > .:43 .o:11 ..oo:11 .oo:6 o:5 .ooo:3 oo:3
..oo > oooo:3
.o > o:6 oo:4 ooo:3
o > .:20 o:8 -:5 .o:5 ..oo:4 -o:3 -oo:3
o-oo > oooo:6 -o:3
oo > o:15 oo:14 ooo:9 .:6 oooo:4 -o:3 -:3
ooo > o:12 -:6 oooo:6 ooo:6 .:4 o-oo:3
ooo- > .:6 oooo:3
oooo > oooo:19 o:12 oo:9 -ooo:7 ooo:7 -:6 .:3
""",
    "slow 1": """
- > .:23 -:13 -o:5 oo:4 .o:4 o:3 -ooo:3 ooo:3
--oo > oooo:3 oo:3
-o > ooo:8 oo:5 -:4 oooo:3 .:3 o:3
-ooo > oooo:5 o:4 -:3 o-oo:3 ooo:3 ooo-:3 .:3
. > .:39 .o:20 oo:7 oooo:7 o:5 .ooo:5 ..oo:4
..oo > oooo:5
o > .:22 -:22 o:8 -ooo:8 oo:5 -o:5 ooo:4 oooo:4 .o:4 ..oo:4 -oo:3 --oo:3
o-oo > oooo:3
oo > oo:17 -:15 .:12 -o:8 o:7 o-oo:4 -ooo:3
ooo > -:12 oo:7 o:5 -o:4 ooo:4 oooo:3 -oo:3 ooo-:3
ooo- > -:9 .:8
oooo > oooo:24 ooo:12 o:11 -:10 -ooo:5 oo:4 ooo-:4 o-oo:3
""",
    "swing 0": """
- > .:228 -:132 oo:72 o:70 -o:32 .o:27 ooo:11 oooo:8 -ooo:6 -oo:3 --oo:3
--oo > oo:19 o:13 -o:8 ooo:7 oooo:7 -:5
-o > oo:196 -:117 -o:117 o:114 ooo:32 .:28 -ooo:13 oooo:12 -oo:12 o-oo:5 ooo-:5
-oo > oo:33 o:27 -o:10 ooo:10 -:6 oooo:3
-ooo > oo:29 o:17 oooo:16 -ooo:15 ooo:13 -:10 -o:5 .:4 o-oo:3
. > .:471 .o:229 oo:105 o:73 ..oo:35 ooo:24 oooo:18 .oo:18 .ooo:12 o-oo:10
..oo > oo:12 ooo:6 -o:4 o:3 oooo:3
.o > oo:98 o:40 -:30 -o:29 ooo:14 .:7 o-oo:7 -oo:6 -ooo:5 oooo:5
.oo > o:4 oo:3 ooo:3
.ooo > o:5 oooo:3
o > o:248 oo:151 .:121 -:66 .o:35 ooo:19 -o:16 -ooo:11 ..oo:8 o-oo:7 oooo:6 ooo-:5 -oo:4
o-oo > oo:24 -:12 o:11 -o:8 oooo:8 -oo:6 ooo:4 -ooo:3
oo > oo:718 o:272 -:246 -o:178 .:50 ooo:46 -oo:39 o-oo:27 -ooo:24 oooo:20 --oo:6 ooo-:6
ooo > oo:67 ooo:58 o:38 -:34 oooo:23 -o:12 -ooo:8 o-oo:8 .:7 -oo:4 ooo-:3
ooo- > .:11 oooo:4 o:4 oo:4 ooo:3
oooo > oooo:89 oo:38 ooo:24 o:22 -ooo:16 -o:7 -:7 o-oo:4 ooo-:4
""",
    "swing 1": """
- > .:230 -:130 oo:99 -o:79 o:77 .o:29 --oo:12 ooo:10 -oo:7 o-oo:6 -ooo:6 oooo:5 ..oo:3
--oo > oo:5 -o:4 o:3 ooo:3
-o > oo:135 -o:102 o:77 -:63 .:39 ooo:22 --oo:9 -oo:9 oooo:6 o-oo:5 -ooo:5 ooo-:4
-oo > oo:43 -o:11 ooo:8 o:6 oooo:5 -:5 -ooo:5 o-oo:4 -oo:3
-ooo > oo:28 oooo:21 o:18 ooo:17 -ooo:11 -:10 o-oo:6 ooo-:6 -o:6
. > .:485 .o:159 oo:63 o:31 ..oo:27 ooo:27 .oo:18 oooo:18 .ooo:17 o-oo:5 ooo-:3
..oo > -o:8 oooo:5 -:5 ooo:4 --oo:4 o:3
.o > oo:93 -o:40 o:31 -:29 ooo:22 oooo:12 -oo:11 -ooo:9 .:7 o-oo:5 --oo:4
.oo > oo:4 oooo:3 ooo:3
.ooo > ooo:3
o > oo:235 .:216 o:177 -:115 -o:91 .o:74 ooo:16 -oo:12 --oo:11 o-oo:9 ..oo:8 -ooo:7 oooo:5
o-oo > oo:27 -o:10 o:9 ooo:8 oooo:7 -:7 -ooo:6 o-oo:4 -oo:3
oo > oo:752 -o:212 o:185 -:170 .:68 ooo:46 -oo:30 oooo:29 -ooo:25 --oo:19 o-oo:16
ooo > oo:69 ooo:60 o:38 -:31 oooo:27 -o:18 -ooo:10 .:7 --oo:6 -oo:5 o-oo:5 ooo-:3
ooo- > .:14 o:7 oo:5 o-oo:3 -o:3
oooo > oooo:83 oo:35 ooo:24 o:19 ooo-:8 o-oo:8 -o:6 -:6 -ooo:6
""",
}

STARTS: Final[tuple[int, ...]] = (148, 156, 127, 118, 143, 102, 91, 115)
"""Where in a bar of eight eighths real phrases begin, in thousandths."""
