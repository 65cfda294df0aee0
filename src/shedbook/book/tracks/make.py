"""The tracks of a build: which are asked for, which lie in their place already, and making the others.

What plays is loaded in the workers only. A list in the store says of every track what it was made from and
which files it left: so a track of which nothing has changed is neither read nor made again, and the files of
one that the book no longer asks for are taken away.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from shedbook.book.ground.findings import BookFinding, of_book
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.told_findings import told_finding
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.choice import chosen_tonics, chosen_tracks
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.tracks import TrackSettings
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.book.scores.worker import PhraseOrder, card_name, make_phrase
from shedbook.book.tracks.orders import Playable, TrackOrder, playable
from shedbook.book.tracks.plan import FOLDER, track_orders
from shedbook.book.tracks.recordings import UNUSED, check_sound_font, unused_recordings
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.naming import digest, name_of
from shedbook.book.workshop.store import Seal, Store, file_seal
from shedbook.errors import ShedbookError, SoundError
from shedbook.sound.audio.sound_fonts import font_places
from shedbook.sound.audio.tables.voices import INSTALL, PROGRAM
from shedbook.sound.audio.voice_door import voice_there
from shedbook.sound.tables.clicks import STRUCK
from shedbook.sound.tables.track_kinds import KINDS
from shedbook.theory.key import Key


@dataclass(frozen=True, slots=True)
class Entry:
    """What the list says of a track.

    `made_from` is the name of everything that went into it, "" for a track that could not be made; `files`
    are seals of its files by their names from the output folder; `uses` names in the store.
    """

    made_from: str = ""
    files: Mapping[str, Seal | None] = field(default_factory=dict)
    uses: tuple[str, ...] = ()
    played_with: str = ""


@dataclass(frozen=True, slots=True)
class TrackList:
    """What the store knows of the tracks that lie in their places, by their stems."""

    tracks: Mapping[str, Entry] = field(default_factory=dict)


_LIST = digest("tracks")
_SYSTEM_LIBRARIES = Path("/etc/ld.so.cache")
"""Changes when a system library comes or goes, as the synthesiser's may (Linux: ldconfig)."""

_PROGRAMS = ("/usr/bin", "/usr/local/bin", "/opt/homebrew/bin")
"""Where systems put their programs."""
_REPORT = "The other tracks are made. This is no fault of yours; please report the phrase."


@dataclass(frozen=True, slots=True)
class TrackPlan:
    """The tracks of a build.

    `orders` are those to be there after it, `whole` the names of all that the book has (None when a part
    of it cannot be told), `watched` files from outside the manuscript's texts with their seals, `findings`
    what is to be said of the author's recordings.
    """

    orders: tuple[TrackOrder, ...] = ()
    whole: frozenset[str] | None = None
    watched: Mapping[str, Seal | None] = field(default_factory=dict)
    cards_made: int = 0
    findings: tuple[BookFinding, ...] = ()


@dataclass(frozen=True, slots=True)
class TracksMade:
    """What became of them: seals by name from the output folder, names in the store, what went wrong."""

    files: Mapping[str, Seal | None]
    uses: tuple[str, ...]
    played_with: tuple[str, ...]
    warnings: tuple[SoundError, ...]
    jobs_run: int


NO_TRACKS = TracksMade({}, (), (), (), 0)


# Which.


def plan_tracks(
    manuscript: Manuscript,
    request: Request,
    phrases: Sequence[PhraseOrder],
    store: Store,
    out: Path,
    crew: Crew,
) -> TrackPlan:
    """Return the tracks that a build of these phrases makes.

    They are counted and named as in the whole book, whichever part of it is built.

    Raises:
        ManuscriptError: if a recording or a SoundFont that is named leads nowhere.
        UnknownNameError: if `request.tracks` names no kind of track.
    """
    settings = manuscript.settings.tracks
    kinds = chosen_tracks(request.tracks, settings)
    if not request.tracks and (request.sample or request.proof_sheet):
        return TrackPlan()
    if not (kinds and phrases):  # a book without [tracks] has none; --tracks none leaves them alone
        return TrackPlan(whole=None if request.tracks or settings.kinds else frozenset())
    check_sound_font(manuscript)
    every = replace(settings, kinds=tuple(dict.fromkeys((*settings.kinds, *kinds))))
    cards, made = _cards(manuscript, phrases, store, crew)
    font = manuscript.root / settings.sound.sound_font if settings.sound.sound_font else None
    watched = {
        str(path): file_seal(path) for path in (*font_places(font), _SYSTEM_LIBRARIES, *_voices(settings))
    }
    orders = track_orders(manuscript, cards, store.folder, out, _versions(font, crew), every)
    watched |= {order.recording: file_seal(Path(order.recording)) for order in orders if order.recording}
    numbers = {0, *(order.source.number for order in phrases)}
    tonics = {tonic.pitch_class for tonic in chosen_tonics(request.keys)}
    chosen = tuple(
        order
        for order in orders
        if order.given.kind in kinds
        and (0 if order.source is None else order.source.number) in numbers
        and (not tonics or _plays(order, tonics))
    )
    all_there = len(cards) == len(manuscript.phrases) and not manuscript.unread
    whole = frozenset(order.stem for order in orders) if all_there and not request.tracks else None
    unused = unused_recordings(manuscript, cards, orders)
    words = words_of(manuscript.settings.language, dict(manuscript.settings.pages.words))
    findings = tuple(
        of_book(str(one.place), told_finding(UNUSED, "warning", one.message, one.mend, words))
        for one in (unused if all_there and not request.tracks else ())
    )
    return TrackPlan(chosen, whole, watched, made, findings)


def _voices(settings: TrackSettings) -> tuple[Path, ...]:
    """Return where a program that speaks the count-in lies, or would lie."""
    if settings.sound.count == STRUCK:
        return ()
    there = voice_there()
    return (Path(there),) if there else tuple(Path(folder, PROGRAM) for folder in _PROGRAMS)


def _unspoken(orders: Sequence[TrackOrder]) -> tuple[SoundError, ...]:
    """Return what is to be said where a voice is asked for and nothing speaks."""
    if voice_there() or all(order.given.sound.count == STRUCK for order in orders):
        return ()
    return (SoundError(f"The count-in is struck, not spoken: {PROGRAM} is not installed.", hint=INSTALL),)


def _plays(order: TrackOrder, tonics: set[int]) -> bool:
    """Whether a track is of one of these keys; one that goes through all keys is of none."""
    return len(order.given.keys) == 1 and Key.parse(order.given.keys[0]).tonic.pitch_class in tonics


def _cards(
    manuscript: Manuscript, phrases: Sequence[PhraseOrder], store: Store, crew: Crew
) -> tuple[list[tuple[PhraseSource, Playable]], int]:
    """Return what decides the tracks of every phrase in all its keys, and how many cards were made for it."""
    base = replace(phrases[0], asked=(), editions=(), engrave=False)
    orders = [replace(base, source=source) for source in manuscript.phrases]
    missing = [order for order in orders if not store.has("card", card_name(order))]
    made = 0
    for _, done in crew.run(make_phrase, missing):
        made += 0 if isinstance(done, Lost) else done.jobs_run
    found = [(order.source, store.read_value(PhraseCard, "card", card_name(order))) for order in orders]
    return [(source, playable(card)) for source, card in found if card is not None], made


def _versions(font: Path | None, crew: Crew) -> str:
    ((_, versions),) = crew.run(_track_versions, [font])
    if isinstance(versions, Lost):
        raise SoundError(
            "Loading the synthesiser ended the program that did it.",
            hint="Build without tracks: --tracks none; or install FluidSynth anew.",
        )
    return versions


def _track_versions(font: Path | None) -> str:
    from shedbook.book.tracks.worker import track_versions  # noqa: PLC0415 - loads what plays, in a worker

    return track_versions(font)


# Making.


@dataclass(frozen=True, slots=True)
class _Call:
    """A track, with what the list says of it."""

    order: TrackOrder
    entry: Entry


@dataclass(frozen=True, slots=True)
class _Played:
    """What became of a track: what the list is to say of it, how many jobs were run, what went wrong."""

    entry: Entry
    jobs_run: int = 0
    errors: tuple[ShedbookError, ...] = ()


def make_tracks(plan: TrackPlan, store: Store, out: Path, crew: Crew, tell: Tell) -> TracksMade:
    """Make the tracks that are not there.

    What cannot be made to sound is made as MIDI and comes back as a warning; what lay in its place before is
    left there.
    """
    if not plan.orders and plan.whole is None:
        return replace(NO_TRACKS, jobs_run=plan.cards_made)
    before = (store.read_value(TrackList, "card", _LIST) or TrackList()).tracks
    calls = [_Call(order, before.get(order.stem, Entry())) for order in plan.orders]
    known = [call for call in calls if call.entry.files]
    there = {call.order.stem for call, found in crew.run(_is_there, known) if found is True}
    missing = [call for call in calls if call.order.stem not in there]
    played: dict[str, _Played] = {}
    groups = _sharing(missing)
    _tell_of_it(groups, crew, tell)
    for group, results in crew.run(_play_all, groups):
        for at, call in enumerate(group):
            played[call.order.stem] = _lost(call) if isinstance(results, Lost) else results[at]
        tell(Step("tracks", len(played), len(missing)))
    now = {
        order.stem: played[order.stem].entry if order.stem in played else before[order.stem]
        for order in plan.orders
    }
    _keep(store, out, before, now, plan.whole)
    return TracksMade(
        files={name: seal for entry in now.values() for name, seal in entry.files.items()},
        uses=(_LIST, *(name for entry in now.values() for name in entry.uses)),
        played_with=tuple(dict.fromkeys(one.played_with for one in now.values() if one.played_with)),
        warnings=(
            *_unspoken(plan.orders),
            *_warnings((order, played[order.stem]) for order in plan.orders if order.stem in played),
        ),
        jobs_run=plan.cards_made + sum(one.jobs_run for one in played.values()),
    )


def _tell_of_it(groups: Sequence[tuple[_Call, ...]], crew: Crew, tell: Tell) -> None:
    """Tell how long tracks will be and how long they will take, where that is long."""
    orders = [tuple(call.order for call in group) for group in groups]
    for _, told in crew.run(_forecast, [(orders, crew.workers)] if orders else []):
        if isinstance(told, str) and told:
            tell(Step("forecast", 1, 1, told))


def _forecast(asked: tuple[Sequence[Sequence[TrackOrder]], int]) -> str:
    from shedbook.book.tracks.forecast import forecast, in_words  # noqa: PLC0415 - as above

    groups, workers = asked
    return in_words(forecast(groups), workers)


def _is_there(call: _Call) -> bool:
    """Whether a track lies in its place, with its measures, made from what it would be made from now."""
    from shedbook.book.tracks.worker import FACTS  # noqa: PLC0415 - as above

    folder, store = Path(call.order.folder).parent, Store(Path(call.order.store))
    if any(file_seal(folder / name) != seal for name, seal in call.entry.files.items()):
        return False
    made_from, names = _made_from(call.order)
    return call.entry.made_from == made_from and all(store.has(FACTS, name) for name in names)


def _sharing(calls: Sequence[_Call]) -> list[tuple[_Call, ...]]:
    """Return calls in groups, each for one worker: kinds that are mixed of the same stems together."""
    found: dict[str, list[_Call]] = {}
    for call in calls:
        given = call.order.given
        row = next((row for row in KINDS if row.name == given.kind), None)
        alike = None if row is None else row._replace(name="", place=0, title="", without=(), stem=False)
        key = name_of("stems", (replace(given, kind=""), alike), "") if alike else call.order.stem
        found.setdefault(key, []).append(call)
    return [tuple(group) for group in found.values()]


def _play_all(calls: tuple[_Call, ...]) -> tuple[_Played, ...]:
    """Make tracks one after the other; in a worker, which keeps the stems of the last."""
    return tuple(_play(call) for call in calls)


def _play(call: _Call) -> _Played:
    """Make a track; in a worker."""
    from shedbook.book.tracks.worker import make_track  # noqa: PLC0415 - as above

    done = make_track(call.order)
    folder = Path(call.order.folder)
    files = {f"{folder.name}/{name}": file_seal(folder / name) for name in done.files}
    if done.errors:  # the list goes on to tell of the files of an earlier build
        entry = replace(call.entry, made_from="", files={**call.entry.files, **files})
        return _Played(entry, done.jobs_run, done.errors)
    made_from, uses = _made_from(call.order)
    return _Played(Entry(made_from, files, uses, done.played_with), done.jobs_run)


def _made_from(order: TrackOrder) -> tuple[str, tuple[str, ...]]:
    """Return the name of everything that goes into a track, and the names of its sound in the store."""
    from shedbook.book.tracks.worker import sound_names, tags_of  # noqa: PLC0415 - as above

    names = tuple(sound_names(order).values())
    return name_of("track", (order.stem, tags_of(order, ""), names), ""), names


def _lost(call: _Call) -> _Played:
    error = SoundError("Playing it ended the program that did it.", hint=_REPORT)
    return _Played(replace(call.entry, made_from=""), errors=(error,))


def _keep(
    store: Store,
    out: Path,
    before: Mapping[str, Entry],
    now: Mapping[str, Entry],
    whole: frozenset[str] | None,
) -> None:
    """Keep the list where it has changed, and take away files of ours that no track has any more."""
    kept = {stem: entry for stem, entry in before.items() if whole is None or stem in whole}
    kept |= now
    if kept == before:
        return
    store.write_value("card", _LIST, TrackList(kept))
    named = {name for entry in kept.values() for name in entry.files}
    for entry in before.values():
        for name, seal in entry.files.items():
            if name not in named and file_seal(out / name) == seal:
                (out / name).unlink(missing_ok=True)
    if not named:
        with contextlib.suppress(OSError):  # the author's own files may lie there
            (out / FOLDER).rmdir()


def _warnings(played: Iterable[tuple[TrackOrder, _Played]]) -> tuple[SoundError, ...]:
    """Return what went wrong, the same fault of many tracks once."""
    titles: dict[tuple[str, str], list[str]] = {}
    for order, one in played:
        for error in one.errors:
            titles.setdefault((error.message, error.hint), []).append(order.title)
    return tuple(
        SoundError(f"{_which(faulty)} not made to sound: {message}", hint=hint)
        for (message, hint), faulty in titles.items()
    )


def _which(titles: Sequence[str]) -> str:
    if len(titles) == 1:
        return f'The track "{titles[0]}" was'
    return f'{len(titles)} tracks, the first of them "{titles[0]}", were'
