"use strict";
// The page's half of the shell: loads the program, mirrors its controls as HTML, keeps the browser's own keys working,
// and does what only a page can do (download, copy, address, file choice). The program's half is scenes/shell_js.go.
(() => {
  const byId = (id) => document.getElementById(id);
  let program = null; // functions handed over by the program
  let shown = ""; // ids, roles and names of the controls now in the page
  const rows = new Map();
  let language = "en"; // of the program

  // What the page itself says; everything else comes from the program.
  const texts = {
    en: { skip: "Controls and results as text (F6)", loading: "Loading Annuloscope…", words: "Controls and results as text",
      caution: "Educational only – not for diagnosis or treatment planning. F6 changes between the picture and this text.",
      failed: "Annuloscope could not start in this browser: ", copying: "Copying failed: ", notes: "Presenter's notes in a second window",
      waiting: "Waiting for the presentation: keep this window open, and start presenting at the lectern in the other one." },
    de: { skip: "Regler und Ergebnisse als Text (F6)", loading: "Annuloscope wird geladen …", words: "Regler und Ergebnisse als Text",
      caution: "Nur zur Lehre – nicht für Diagnose oder Behandlungsplanung. F6 wechselt zwischen Bild und diesem Text.",
      failed: "Annuloscope konnte in diesem Browser nicht starten: ", copying: "Kopieren misslang: ", notes: "Notizen des Vortragenden in einem zweiten Fenster",
      waiting: "Warten auf die Vorführung: dieses Fenster offen lassen und im anderen am Pult mit dem Vorführen beginnen." },
  };
  const say1 = (key) => (texts[language] || texts.en)[key];

  function speak(lang) {
    language = lang;
    document.documentElement.lang = lang in texts ? lang : "en";
    byId("skip").textContent = say1("skip");
    byId("loading").textContent = say1("loading");
    byId("words").lang = document.documentElement.lang;
    byId("words").setAttribute("aria-label", say1("words"));
    byId("caution").textContent = say1("caution");
    byId("notes").textContent = say1("notes");
  }

  // What the browser knows of the person's wishes: less motion always counts, the language unless the address names one.
  const less = matchMedia("(prefers-reduced-motion: reduce)");
  function wishes(first) {
    const q = new URLSearchParams(location.search);
    if (less.matches) q.set("still", "1");
    if (first && !q.has("lang") && !location.hash.startsWith("#state=") && /^de\b/i.test(navigator.language)) q.set("lang", "de");
    return q.toString();
  }

  // The presenter's notes go to every window of this page that was opened with ?notes.
  const channel = "BroadcastChannel" in window ? new BroadcastChannel("annuloscope notes") : null;
  let notes = null;

  function fail(reason) {
    const p = byId("loading");
    p.className = "failed";
    p.hidden = false;
    p.textContent = say1("failed") + reason;
    window.annuloscopeError = String(reason);
  }

  function make(tag, props) {
    return Object.assign(document.createElement(tag), props || {});
  }

  // build makes one control's elements and returns how to bring them up to date.
  function build(c) {
    const row = make("div", { className: "row" });
    const id = "control-" + c.ID;
    const act = (v) => program && program.act(c.ID, String(v));
    const label = () => { const l = make("label", { htmlFor: id, textContent: c.Name + (c.Unit ? ", " + c.Unit : "") }); row.append(l); };
    let el;
    let update;
    if (c.Role === "slider") {
      label();
      el = make("input", { type: "range", id });
      el.addEventListener("input", () => act(el.value));
      update = (n) => {
        el.min = n.Min; el.max = n.Max; el.step = n.Step > 0 ? n.Step : "any";
        if (document.activeElement !== el || Number(el.value) !== n.Value) el.value = n.Value;
        el.setAttribute("aria-valuetext", n.Text || (n.Value + (n.Unit ? " " + n.Unit : "")));
      };
    } else if (c.Role === "checkbox") {
      el = make("input", { type: "checkbox", id });
      el.addEventListener("change", () => act(el.checked));
      const l = make("label", { htmlFor: id });
      l.append(el, " " + c.Name);
      row.append(l);
      update = (n) => { el.checked = n.On; };
    } else if (c.Role === "radiogroup") {
      label();
      el = make("select", { id });
      el.addEventListener("change", () => act(el.value));
      update = (n) => {
        const have = Array.from(el.options, (o) => o.value).join("\n");
        const options = n.Options || [];
        if (have !== options.join("\n")) el.replaceChildren(...options.map((o) => make("option", { value: o, textContent: o })));
        el.value = n.Text;
      };
    } else if (c.Role === "entry") {
      label();
      el = make("input", { type: "text", id });
      el.addEventListener("change", () => act(el.value));
      update = (n) => { if (document.activeElement !== el) el.value = n.Text; };
    } else if (c.Role === "text" || c.Role === "img") {
      // A number with an explanation can be opened; the picture is one image with its words.
      const more = c.Role === "text" && c.Hint;
      const box = make(more ? "details" : "p", more ? {} : { id });
      el = more ? make("summary", { id }) : box;
      if (more) { box.append(el, make("p", { textContent: c.Hint })); row.append(box); }
      if (c.Role === "img") el.setAttribute("role", "img");
      update = (n) => {
        const t = n.Name + (n.Text ? ": " + n.Text : "") + (n.Text && n.Unit && c.Role === "text" && !n.Text.includes(n.Unit) ? " " + n.Unit : "");
        if (el.textContent !== t) { el.textContent = t; if (c.Role === "img") el.setAttribute("aria-label", t); }
      };
    } else {
      el = make("button", { type: "button", id, textContent: c.Name });
      el.addEventListener("click", () => act(""));
      update = (n) => { if (n.On) el.setAttribute("aria-pressed", "true"); else el.removeAttribute("aria-pressed"); };
    }
    if (!el.parentNode) row.append(el);
    return { row, update: (n) => {
      if ("disabled" in el) el.disabled = n.Disabled;
      if (n.Hint && el.tagName !== "SUMMARY") el.setAttribute("aria-description", n.Hint); else el.removeAttribute("aria-description");
      update(n);
    } };
  }

  // mirror brings the HTML side up to date with the program's screen. Elements stay while the set of controls stays, so
  // that the focus is not lost.
  function mirror(json) {
    const s = JSON.parse(json);
    const controls = s.controls || [];
    if (s.language && s.language !== language) speak(s.language);
    const key = controls.map((c) => [c.ID, c.Role, c.Name, c.Unit, c.Group].join("\t")).join("\n");
    if (key !== shown) {
      const focused = document.activeElement && document.activeElement.id;
      shown = key;
      rows.clear();
      const out = [];
      let group = "";
      for (const c of controls) {
        if (c.Group && c.Group !== group) out.push(make("h2", { textContent: c.Group }));
        group = c.Group;
        const r = build(c);
        rows.set(c.ID, r);
        out.push(r.row);
      }
      byId("controls").replaceChildren(...out);
      if (focused && focused.startsWith("control-")) {
        const again = byId(focused) || byId("controls").querySelector("button, input, select, summary");
        if (again) again.focus();
      }
    }
    tellNotes(controls.find((c) => c.ID === "lectern/notes"));
    for (const c of controls) rows.get(c.ID).update(c);
    say(s.announcement);
    if (byId("description").textContent !== s.description) {
      byId("description").textContent = s.description;
      const canvas = document.querySelector("canvas");
      if (canvas) canvas.setAttribute("aria-label", s.description);
    }
  }

  function tellNotes(c) {
    const now = c ? c.Text : null;
    byId("notes").hidden = !c || !channel;
    if (now === notes) return;
    notes = now;
    if (channel) channel.postMessage({ notes });
  }

  function say(text) {
    const p = byId("announcement");
    if (p.textContent !== text) p.textContent = text;
  }

  function canvasReady() {
    const canvas = document.querySelector("canvas");
    if (!canvas) return;
    canvas.tabIndex = 0;
    canvas.setAttribute("role", "application");
    canvas.setAttribute("aria-describedby", "announcement");
    if (!document.activeElement || document.activeElement === document.body) canvas.focus();
  }

  window.annuloscopePage = {
    started(functions) {
      program = functions;
      byId("loading").hidden = true;
      canvasReady();
      const q = wishes(true);
      if (q !== new URLSearchParams(location.search).toString()) program.open("", q);
    },
    mirror,
    say,
    download(name, bytes) {
      const url = URL.createObjectURL(new Blob([bytes]));
      const a = make("a", { href: url, download: name });
      document.body.append(a);
      a.click();
      a.remove();
      setTimeout(() => URL.revokeObjectURL(url), 10000);
    },
    copy(text) {
      if (!navigator.clipboard || !navigator.clipboard.writeText) return false;
      text = text.replaceAll("{page}", location.origin + location.pathname);
      navigator.clipboard.writeText(text).catch((e) => say(say1("copying") + e.message));
      return true;
    },
    address(fragment) {
      history.replaceState(null, "", fragment ? "#" + fragment : location.pathname + location.search);
    },
    choose() { byId("file").click(); },
    bench(result) { fetch("bench-result?" + encodeURIComponent(result), { cache: "no-store" }).catch(() => {}); },
  };

  Object.defineProperty(window, "annuloscopeState", { get: () => (program ? program.state() : "") });

  byId("file").addEventListener("change", async (e) => {
    const f = e.target.files[0];
    e.target.value = "";
    if (f && program) program.file(f.name, new Uint8Array(await f.slice(0, 16 << 20).arrayBuffer()));
  });

  addEventListener("hashchange", () => {
    if (program && location.hash !== "#words") program.open(location.hash.slice(1), less.matches ? "still=1" : "");
  });
  less.addEventListener("change", () => { if (program) program.open("", less.matches ? "still=1" : "still=0"); });

  byId("skip").addEventListener("click", (e) => { e.preventDefault(); byId("words").focus(); });

  // The picture takes all keys that reach it; the browser's own are kept from it.
  const browsers = new Set(["F5", "F11", "F12"]);
  const commands = new Set(["r", "l", "t", "w", "n", "p", "f", "j", "tab", "+", "-", "0"]);
  addEventListener("keydown", (e) => {
    const canvas = document.querySelector("canvas");
    if (e.key === "F6") {
      e.preventDefault();
      e.stopImmediatePropagation();
      if (document.activeElement === canvas) byId("words").focus(); else if (canvas) canvas.focus();
    } else if (browsers.has(e.key) || ((e.ctrlKey || e.metaKey) && commands.has(e.key.toLowerCase()))) {
      e.stopImmediatePropagation();
    }
  }, true);

  // The second window shows nothing but the notes, in large type; the first one tells it what they are.
  function showNotes() {
    const p = byId("loading");
    const out = make("pre", { id: "prompt" });
    out.setAttribute("role", "status");
    out.textContent = say1("waiting");
    p.replaceWith(out);
    byId("words").remove();
    byId("skip").remove();
    document.body.classList.add("notes");
    channel.onmessage = (e) => { if ("notes" in e.data) out.textContent = e.data.notes || say1("waiting"); };
    channel.postMessage({ hello: true });
  }

  // Without graphics the program does its main job in words, on the console: they are shown here too.
  let said = "";
  const log = console.log;
  console.log = (...parts) => { said += parts.join(" ") + "\n"; log(...parts); };

  async function run() {
    if (!("instantiateStreaming" in WebAssembly)) throw new Error("WebAssembly is missing");
    const go = new Go();
    const r = await WebAssembly.instantiateStreaming(fetch("annuloscope.wasm"), go.importObject);
    await go.run(r.instance);
    if (window.annuloscopeError) return;
    fail("it ended. It needs WebGL for its picture" + (said ? "; the main job in words:" : "."));
    if (said) byId("loading").after(make("pre", { textContent: said }));
  }
  if (/^de\b/i.test(navigator.language)) speak("de");
  if (channel && new URLSearchParams(location.search).has("notes")) { showNotes(); return; }
  if (channel) channel.onmessage = (e) => { if (e.data.hello) channel.postMessage({ notes }); };
  addEventListener("unhandledrejection", (e) => { if (!program) fail(e.reason); });
  run().catch(fail);
})();
