"""Small pieces of HTML, every word escaped, and the look that all panels share."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

STYLE = """<style>
.pricebook { max-width: 1500px; width: 100%; container-type: inline-size; }
.pricebook .columns { gap: 18px; align-items: flex-start; }
.pricebook .asks { flex: 0 0 33em; }
.pricebook .answers { flex: 1 1 0; min-width: 20em; }
.pricebook .asks, .pricebook .answers { max-height: calc(100vh - 240px);
  min-height: 24em; overflow: auto; padding-right: 6px; }
.pricebook .answers .widget-html { width: auto; }
.pricebook .answers .widget-html-content { width: 100%; min-width: 0; }
.pricebook .asks > *, .pricebook .answers > * { flex-shrink: 0; }
.pricebook .foot { border-top: 1px solid #ccc; padding-top: 4px; min-height: 5em; }
.pricebook .widget-label { min-width: 14em; text-align: left; }
.pricebook .widget-html > .widget-label { min-width: 0; }
.pricebook input[type=text], .pricebook select, .pricebook button {
  min-height: 28px; }
.pricebook .widget-checkbox label { display: flex; align-items: center; gap: 4px; }
.pricebook .widget-checkbox input { margin: 0; }
.pricebook .widget-slider { height: 22px; }
.pricebook .asks .widget-inline-hbox, .pricebook .asks .widget-box { margin: 0 2px; }
.pricebook .listed { border-bottom: 1px solid #ccc; padding-bottom: 6px;
  margin: 0 0 6px; flex-shrink: 0; overflow: visible; }
.pricebook .asks button { align-self: flex-start; }
.pricebook select { text-overflow: ellipsis; }
.pricebook :focus-visible { outline: 2px solid #0072b2; outline-offset: -1px; }
.pricebook .picture { max-width: 860px; }
.pricebook .picture img { width: 100%; height: auto; object-fit: contain; }
.pricebook h3 { margin: 8px 0 2px; font-size: 1.05em; font-weight: 600; }
.pricebook .asks .widget-hbox > .widget-html { flex: 1 1 0; min-width: 0; }
.pricebook .understood { color: #555; font-size: 0.94em; line-height: 1.15;
  display: inline-block; }
.pricebook .refused { border-left: 4px solid #b03a00; padding: 2px 8px;
  background: #fff4ec; color: #5c1f00; line-height: 1.35; }
.pricebook .done { border-left: 4px solid #0072b2; padding: 2px 8px;
  line-height: 1.35; overflow-wrap: anywhere; }
.pricebook .foot .done, .pricebook .foot .refused { max-height: 6.8em; overflow: auto; }
.pricebook .shows { position: absolute; width: 1px; height: 1px; overflow: hidden;
  clip-path: inset(50%); white-space: nowrap; }
.pricebook p { margin: 4px 0; line-height: 1.4; max-width: 860px; }
.pricebook p, .pricebook summary, .pricebook .refused { overflow-wrap: anywhere; }
.pricebook td[style*=left]:not(:last-child) { max-width: 16em;
  overflow-wrap: break-word; }
.pricebook table { margin: 4px 0 8px; line-height: 1.3; font-size: 0.92em;
  font-variant-numeric: tabular-nums; }
.pricebook td, .pricebook th { padding: 2px 5px !important; }
.pricebook th { white-space: normal !important; vertical-align: bottom !important; }
.pricebook tr:has(> td[style*=right]:nth-child(2)):has(> td[style*=left]:nth-child(9))
  > td:first-child { min-width: 7.5em; }
.pricebook td[style*=left]:nth-child(3):last-child { min-width: 14em; }
.pricebook td[style*=left]:nth-child(10):last-child { min-width: 12em; }
@container (max-width: 960px) {
  .pricebook .columns { flex-direction: column; align-items: stretch; gap: 8px; }
  .pricebook .asks { flex: none; max-height: 14em; min-height: 0; }
  .pricebook .answers { flex: none; max-height: calc(100vh - 240px - 15em); }
}
.pricebook .busy { visibility: hidden; animation: pricebook-busy 0s 0.5s forwards;
  font-weight: 600; }
@keyframes pricebook-busy { to { visibility: visible; } }
</style>"""

BUSY = '<span class="busy" role="status">Working &hellip;</span>'
"""Seen only when it has stood for half a second."""

GIVE_NAMES = """
if (!window.pricebookNames) {
  window.pricebookNames = () => {
    document.querySelectorAll(".pricebook .noUi-handle:not([aria-label])")
      .forEach((handle) => {
        const label = handle.closest(".widget-slider").querySelector("label");
        if (label && label.title) handle.setAttribute("aria-label", label.title);
      });
    document.querySelectorAll(".pricebook .shows").forEach((words) => {
      const image = words.closest(".picture").querySelector("img");
      if (!image || image.alt === words.textContent) return;
      image.alt = words.textContent;
      words.setAttribute("aria-hidden", "true");
    });
    document.querySelectorAll(".pricebook:not([data-keys])").forEach((panel) => {
      panel.dataset.keys = "own";
      panel.addEventListener("keydown", (event) => {
        if (!event.ctrlKey && !event.metaKey && !event.altKey) event.stopPropagation();
      });
    });
  };
  new MutationObserver(window.pricebookNames)
    .observe(document.body, {childList: true, subtree: true});
}
window.pricebookNames();
"""
"""Gives slider handles and pictures, which the library leaves nameless, a name, and
keeps plain keys inside the panel: a letter typed to choose a wood would else be a
command of the notebook, which adds, changes or deletes a cell.

A slider takes its title, a picture the words that stand hidden beside it; where no
script runs, a screen reader still meets those words.
"""


_TURNING = dict.fromkeys(
    [0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)], "\ufffd"
)
"""Marks that nobody sees and that turn the figures after them round."""


def safe(text: str) -> str:
    """Return text as HTML: nothing of it is run, and no mark in it turns the rest."""
    return escape(str(text).translate(_TURNING))


def paragraph(text: str) -> str:
    """Return a sentence as a paragraph."""
    return f"<p>{safe(text)}</p>"


def folded(title: str, sentences: Iterable[str]) -> str:
    """Return sentences folded away under a title; nothing when there are none."""
    found = "".join(map(paragraph, sentences))
    if not found:
        return ""
    return f"<details><summary>{safe(title)}</summary>{found}</details>"


def heading(text: str) -> str:
    """Return a heading inside a panel."""
    return f"<h3>{safe(text)}</h3>"


def understood(text: str) -> str:
    """Return what was understood of a box, to stand beside it."""
    return f'<span class="understood">{safe(text)}</span>' if text else ""


def shows(title: str) -> str:
    """Return what a picture shows, for whoever cannot see it."""
    return f'<span class="shows">{safe(title)}</span>'


def refused(faults: Iterable[str]) -> str:
    """Return the sentences of a refusal, spoken at once by a screen reader."""
    sentences = "<br>".join(safe(fault) for fault in faults)
    return f'<div class="refused" role="alert">{sentences}</div>'


def done(text: str) -> str:
    """Return what was done, spoken when the reader pauses."""
    return f'<div class="done" role="status">{safe(text)}</div>'
