"""Every path does what it says, and its answer has the shape that the OpenAPI document gives it."""

from __future__ import annotations

import io
import wave
import zipfile
from pathlib import Path
from typing import Any

import mido
import pytest
from lxml import etree
from starlette.testclient import TestClient

from tabforge.pipeline import build, study_from
from tabforge.readers import READERS
from tabforge.service.settings import PREFIX
from tabforge.source import Source
from tests.service.answers import is_problem, is_said
from tests.service.conftest import ROOT, SMALL, WRONG

EXAMPLES = sorted((ROOT / "examples").glob("*.riff"))


def post(client: TestClient, path: str, **body: Any) -> Any:
    return client.post(f"{PREFIX}/{path}", json=body)


def test_a_check_finds_what_the_pipeline_finds(client: TestClient) -> None:
    good = is_said(client, post(client, "check", text=SMALL), "Check")
    assert good == {"ok": True, "errors": 0, "advice": 0, "unshown": 0, "diagnostics": []}
    bad = is_said(client, post(client, "check", text=WRONG, name="wrong.riff"), "Check")
    expected = [(each.code.id, each.span.start) for each in study_from("wrong.riff", WRONG.encode()).diagnostics]
    assert not bad["ok"]
    assert [(each["code"], each["start"]["offset"]) for each in bad["diagnostics"]] == expected


def test_text_document_and_file_are_the_same_study(client: TestClient) -> None:
    document = READERS["riff"](Source("x", SMALL)).document
    known = next(each["id"] for each in client.get(f"{PREFIX}/studies").json()["studies"] if each["name"] == "small.riff")
    made = [post(client, "export/musicxml", **source) for source in ({"text": SMALL}, {"document": document}, {"study": known})]
    assert made[0].content == made[1].content == made[2].content == build("small.riff", SMALL.encode(), ["musicxml"]).files["musicxml"]


def test_a_document_may_have_a_name_of_a_text(client: TestClient) -> None:
    document = READERS["riff"](Source("x", SMALL)).document
    assert is_said(client, post(client, "check", document=document, name="small.riff"), "Check")["ok"]


def test_lone_surrogates_are_told_not_stumbled_over(client: TestClient) -> None:
    lone = b'"\\ud800"'
    for path in ("check", "view"):
        sent = b'{"text": %s}' % lone
        told = is_said(client, client.post(f"{PREFIX}/{path}", content=sent, headers={"Content-Type": "application/json"}), path.title())
        assert [each["code"] for each in told["diagnostics"]] == ["D201"]
    for path, member in (("explain", "words"), ("diagram", "scale"), ("diagram", "chord"), ("export/tab", "name")):
        sent = b'{"text": "", "%s": %s}' if member == "name" else b'{"%s": %s}'
        sent %= (member.encode(), lone)
        assert client.post(f"{PREFIX}/{path}", content=sent, headers={"Content-Type": "application/json"}).status_code == 422


def test_a_document_with_errors_has_pointers(client: TestClient) -> None:
    told = is_said(client, post(client, "check", document={"study": 1, "blocks": [{"kind": "riff", "volume": 3}]}), "Check")
    assert any(each["pointer"].startswith("/blocks/0") for each in told["diagnostics"])


def test_tidy_lays_out(client: TestClient) -> None:
    told = is_said(client, post(client, "tidy", text="tempo   90\nriff\n rhythm q q h\n frets 6:0 6:2 6:3\n"), "Tidied")
    assert told["text"].startswith("tempo  90\n") or "tempo" in told["text"].splitlines()[0]
    assert is_said(client, post(client, "tidy", text=told["text"]), "Tidied")["text"] == told["text"]
    is_problem(post(client, "tidy", text="riff\n  rhythm q (\n"), 422, "study-errors")


@pytest.mark.parametrize("path", EXAMPLES[:4], ids=lambda path: path.name)
def test_a_view_has_everything(client: TestClient, path: Path) -> None:
    told = is_said(client, post(client, "view", text=path.read_text(), name=path.name), "View")
    score = study_from(path.name, path.read_bytes()).score
    assert score is not None
    assert [each["title"] for each in told["sections"]] == [each.title for each in score.sections]
    assert told["glyphs"].startswith("<svg") and "style=" not in told["glyphs"]
    for section, own in zip(told["sections"], score.sections, strict=True):
        bars = [(each["first_bar"], each["last_bar"]) for each in section["systems"]]
        assert sum(last - first + 1 for first, last in bars) == len(own.bars) == section["bars"]
        for system in section["systems"]:
            etree.fromstring(system["svg"])
        if own.bars:
            assert section["tab"] in told["tab"] or section["tab"].splitlines()[-1] in told["tab"]
    heard = {sound["at"] for sound in told["performance"]["sounds"] if sound["part"] == "line"}
    seen = "".join(system["svg"] for section in told["sections"] for system in section["systems"])
    assert heard and all(f'data-at="{at}"' in seen for at in heard)


def test_a_view_calls_bars_as_they_are_printed(client: TestClient) -> None:
    """Numbers run on through the study, and a pickup is not counted (common practice, no source)."""
    riff = "riff\n  click on\n  count-in 2\n  rhythm w | w\n  degrees 1 | #4\n"
    text = "scale C3 lydian\nriff\n  pickup q\n  rhythm q | w\n  degrees 1 | 5\n" + riff
    told = is_said(client, post(client, "view", text=text), "View")
    assert [section["numbers"] for section in told["sections"]] == [["0", "1"], ["2", "3"]]
    assert "#4 (F#) once, first in bar 3 on beat 1" in " ".join(told["theory"]["text"].split())
    assert [(section["click"], section["count_in"]) for section in told["sections"]] == [(False, None), (True, 2)]


def test_a_view_of_a_study_with_errors_has_no_music(client: TestClient) -> None:
    told = is_said(client, post(client, "view", text=WRONG), "View")
    assert not told["ok"] and told["diagnostics"] and "sections" not in told


def test_settings_are_compiled_anew(client: TestClient) -> None:
    text = EXAMPLES[0].read_text()
    plain = is_said(client, post(client, "view", text=text), "View")
    moved = is_said(client, post(client, "view", text=text, settings={"key": "F2", "tempo": 60, "hand": "left"}), "View")
    assert moved["left_handed"] and not plain["left_handed"]
    first = [view["performance"]["sounds"][0] for view in (plain, moved)]
    assert (first[1]["midi"] - first[0]["midi"]) % 12 == (5 - 10) % 12  # Bb to F
    assert first[1]["seconds"] > first[0]["seconds"]
    assert all(section["scale"].startswith("F ") for section in moved["sections"] if section["scale"])


def test_a_layout_is_said_as_a_study_or_as_a_document_says_it(client: TestClient) -> None:
    text = "scale A2 minor pentatonic\nrun\n  layout position 5\n  path up\n  rhythm e\n"
    plain = is_said(client, post(client, "view", text=text), "View")
    laid = is_said(client, post(client, "view", text=text, settings={"layout": "3 per string from string 6"}), "View")
    assert laid["sections"][0]["tab"] != plain["sections"][0]["tab"]
    same = is_said(client, post(client, "view", text=text, settings={"layout": {"kind": "per string", "count": 3, "from": 6}}), "View")
    assert same["sections"][0]["tab"] == laid["sections"][0]["tab"]


def test_settings_that_cannot_be_are_told(client: TestClient) -> None:
    told = is_said(client, post(client, "view", text=SMALL, settings={"instrument": "zither"}), "View")
    assert [each["code"] for each in told["diagnostics"]] == ["M321"]
    is_problem(post(client, "view", text=SMALL, settings={"layout": "sideways"}), 422, "invalid")
    is_problem(post(client, "view", text=SMALL, settings={"key": "H"}), 422, "invalid")


def test_a_performance_is_in_seconds(client: TestClient) -> None:
    """At 100 quarters a minute a quarter lasts 0.6 seconds; four quarters are counted in before a bar of 4/4."""
    told = is_said(client, post(client, "play", text=SMALL, play={"count_in": 1}), "Performance")
    assert [click["at"] for click in told["clicks"] if click["counting"]] == pytest.approx([0, 0.6, 1.2, 1.8])
    assert [sound["start"] for sound in told["sounds"] if sound["part"] == "line"] == pytest.approx([2.4, 3.0, 3.6])
    (bar,) = told["bars"]
    assert (bar["section"], bar["bar"], bar["start"], bar["end"], bar["tick"]) == (0, 0, 2.4, 4.8, 0)
    assert [sound["midi"] for sound in told["sounds"] if sound["part"] == "line"] == [40, 43, 47]  # E2, G2, B2
    assert any(sound["part"] == "drone" for sound in told["sounds"])
    quiet = is_said(client, post(client, "play", text=SMALL, play={"click": False, "drone": False}), "Performance")
    assert not quiet["clicks"] and {sound["part"] for sound in quiet["sounds"]} == {"line"}
    is_problem(post(client, "play", text=SMALL, play={"blocks": ["Nowhere"]}), 422, "cannot")
    assert is_said(client, post(client, "play", text=SMALL, play={"blocks": ["one"]}), "Performance")["sounds"]


def test_every_format_is_what_its_type_says(client: TestClient) -> None:
    def made(name: str, media: str) -> bytes:
        response = post(client, f"export/{name}", text=SMALL, name="small.riff")
        assert response.status_code == 200, response.text
        assert response.headers["content-type"].startswith(media)
        assert 'filename="small.' in response.headers["content-disposition"]
        return response.content

    assert etree.fromstring(made("musicxml", "application/vnd.recordare.musicxml+xml")).tag == "score-partwise"
    assert zipfile.ZipFile(io.BytesIO(made("mxl", "application/vnd.recordare.musicxml"))).testzip() is None
    assert "Small" in made("tab", "text/plain").decode()
    assert mido.MidiFile(file=io.BytesIO(made("midi", "audio/midi"))).length > 2
    assert etree.fromstring(made("svg", "image/svg+xml")).tag.endswith("svg")
    with wave.open(io.BytesIO(made("wav", "audio/wav"))) as file:
        assert file.getnframes() > file.getframerate()
    assert made("mp3", "audio/mpeg")[:1] in (b"\xff", b"I")


@pytest.mark.parametrize(("accept", "media"), [
    ("audio/midi", "audio/midi"),
    ("*/*", "application/vnd.recordare.musicxml+xml"),
    ("text/*;q=0.5, image/svg+xml;q=0.8", "image/svg+xml"),
    ("application/*;q=0.1, application/vnd.recordare.musicxml+xml;q=0, text/plain;q=0", "application/vnd.recordare.musicxml"),
    ("text/html, text/plain;q=0.2", "text/plain; charset=utf-8"),
])  # fmt: skip
def test_what_is_accepted_is_made(client: TestClient, accept: str, media: str) -> None:
    response = client.post(f"{PREFIX}/export", json={"text": SMALL}, headers={"Accept": accept})
    assert (response.status_code, response.headers["content-type"]) == (200, media)
    assert "Accept" in response.headers["vary"]


@pytest.mark.parametrize("accept", ["text/html", "image/png, application/json", "*/*;q=0", "nonsense", "audio/midi;q=zero"])
def test_what_is_not_made_is_not_acceptable(client: TestClient, accept: str) -> None:
    is_problem(client.post(f"{PREFIX}/export", json={"text": SMALL}, headers={"Accept": accept}), 406, "not-acceptable")


def test_explanations(client: TestClient) -> None:
    scale = is_said(client, post(client, "explain", words="E2 phrygian dominant"), "Explanation")
    assert scale["found"][0]["notes"] == ["E", "F", "G#", "A", "B", "C", "D"]  # the fifth mode of A harmonic minor
    chord = is_said(client, post(client, "explain", words="Dm7 in C major"), "Explanation")
    assert chord["found"][0]["asked"]["numeral"] == "ii7"
    study = is_said(client, post(client, "explain", text=SMALL, blocks=["One"]), "Explanation")
    assert study["found"][0]["blocks"][0]["notes"] == 3
    is_problem(post(client, "explain", words="no such thing"), 422, "cannot")


def test_diagrams(client: TestClient) -> None:
    def drawn(**asked: Any) -> str:
        response = post(client, "diagram", **asked)
        assert response.status_code == 200, response.text
        return response.text

    etree.fromstring(drawn(scale="Bb2 lydian", layout="3 per string from string 6"))
    assert "[1]" in drawn(scale="Bb2 lydian", form="text")
    assert "032010" in drawn(chord="C/E", form="text")  # the open C chord over its E (common practice, no source)
    assert "One" in drawn(text=SMALL, form="text")
    assert drawn(scale="A2 minor", tuning="drop D", form="text") != drawn(scale="A2 minor", form="text")
    is_problem(post(client, "diagram", chord="Zz9"), 422, "study-errors")
    is_problem(post(client, "diagram", scale="Q major"), 422, "study-errors")
    is_problem(post(client, "diagram", text=SMALL, labels="finger"), 422, "cannot")


def test_the_program_tells_of_itself(client: TestClient) -> None:
    is_said(client, client.get(f"{PREFIX}/health"), "Health")
    assert all(each["installed"] for each in is_said(client, client.get(f"{PREFIX}/version"), "Version")["formats"])
    choices = is_said(client, client.get(f"{PREFIX}/choices"), "Choices")
    assert choices["keys"] == ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]
    assert choices["instruments"][0]["tunings"][0] == {"name": "standard", "strings": ["E2", "A2", "D3", "G3", "B3", "E4"]}
    names = is_said(client, client.get(f"{PREFIX}/schemas"), "Schemas")["schemas"]
    assert "study" in names
    for name in names:
        response = client.get(f"{PREFIX}/schemas/{name}")
        assert response.content == (ROOT / "schemas" / f"{name}.schema.json").read_bytes()
        assert response.headers["content-type"] == "application/schema+json"


def test_the_folder_is_listed(client: TestClient) -> None:
    told = is_said(client, client.get(f"{PREFIX}/studies"), "Listing")
    assert told["watching"] and [each["name"] for each in told["studies"]] == ["inside/wrong.riff", "small.riff"]
    for each in told["studies"]:
        assert "/" not in each["id"]
        study = is_said(client, client.get(f"{PREFIX}/studies/{each['id']}"), "WatchedStudy")
        assert study["text"] == (SMALL if each["name"] == "small.riff" else WRONG)
    assert is_said(client, post(client, "view", study=told["studies"][1]["id"]), "View")["name"] == "small.riff"


def test_a_link_gives_a_file(client: TestClient) -> None:
    known = client.get(f"{PREFIX}/studies").json()["studies"][1]["id"]
    low = client.get(f"{PREFIX}/studies/{known}/export/midi", params={"key": "A2", "tempo": 50})
    assert low.status_code == 200
    assert low.content == post(client, "export/midi", text=SMALL, settings={"key": "A2", "tempo": 50.0}).content
    is_problem(client.get(f"{PREFIX}/studies/{known}/export/midi", params={"tempo": "fast"}), 422, "invalid")
    is_problem(client.get(f"{PREFIX}/studies/{known}/export/midi", params={"tuning": "a\x00b"}), 422, "invalid")
    is_problem(client.get(f"{PREFIX}/studies/{known}/export/doc"), 404, "not-found")
