// Makes taps quicker where scripts run; every form works as well without.
"use strict";
(() => {
  const parser = new DOMParser();
  let queue = Promise.resolve();

  const TYPED = "firmlever-typed";
  const texts = "main input:not([type=hidden]):not([type=file]):not([type=checkbox]):not([type=radio]), main textarea";
  const ofIds = (fields) => [...fields].filter((e) => e.id && e.value !== e.defaultValue);

  // Takes over what the server answered, and leaves the reader where they were.
  const show = (next, address, sent) => {
    const main = document.querySelector("main");
    const active = document.activeElement;
    const at = active && active !== document.body ? active.id : "";
    const top = at ? active.getBoundingClientRect().top : 0;
    const open = [...main.querySelectorAll("details[open]:not(.fails) summary")].map((e) => e.textContent);
    // What is being typed elsewhere on the page stays as it is.
    const typed = ofIds(document.querySelectorAll(texts))
      .filter((e) => e.form !== sent).map((e) => [e.id, e.value]);
    const chosen = [...document.querySelectorAll("main input[type=file]")]
      .filter((e) => e.id && e.files.length).map((e) => [e.id, e.files]);
    document.title = next.title;
    main.replaceWith(next.querySelector("main"));
    document.querySelectorAll("main details:not(.fails) summary").forEach((e) => {
      if (open.includes(e.textContent)) e.parentElement.open = true;
    });
    typed.forEach(([id, value]) => {
      const field = document.getElementById(id);
      if (field) field.value = value;
    });
    chosen.forEach(([id, files]) => {
      const field = document.getElementById(id);
      if (field) field.files = files;
    });
    if (address) {
      const there = address.split("#")[0];
      history[there === location.href.split("#")[0] ? "replaceState" : "pushState"](null, "", there);
    }
    const urgent = document.getElementById("clash") || document.getElementById("problems");
    const same = at && document.getElementById(at);
    if (urgent) {
      urgent.tabIndex = -1;
      urgent.focus();
    } else if (same) {
      same.focus({ preventScroll: true });
      window.scrollBy(0, same.getBoundingClientRect().top - top);
    } else if (at) {
      document.getElementById("content").focus({ preventScroll: true });
    }
  };

  // Sends a form; with quietly the page stays as it is, and only learns its new version.
  const send = (form, name, value, quietly) => {
    const data = new URLSearchParams(new FormData(form));
    if (name) data.append(name, value);
    const action = form.getAttribute("action");
    // One after the other: each tap is made on the version the one before it has left.
    queue = queue.then(async () => {
      const version = document.querySelector("main input[name=version]");
      if (version && Number(data.get("version")) < Number(version.value)) data.set("version", version.value);
      try {
        const answer = await fetch(action, { method: "POST", body: data, credentials: "same-origin", keepalive: true });
        const next = parser.parseFromString(await answer.text(), "text/html");
        const now = next.querySelector("main input[name=version]");
        if (answer.status === 401) {
          // Signed out meanwhile: what is typed waits here until one is back.
          const typed = ofIds(document.querySelectorAll(texts)).map((e) => [e.id, e.value]);
          sessionStorage.setItem(TYPED, JSON.stringify([location.pathname, typed]));
          location.assign("/sign-in?next=" + encodeURIComponent(location.pathname));
        } else if (quietly && answer.ok && now) {
          document.querySelectorAll("main input[name=version]").forEach((e) => { e.value = now.value; });
        } else {
          show(next, answer.redirected ? answer.url : "", form);
        }
      } catch (e) {
        // The server is away: the browser's own page says so, and keeps the form.
        form.submit();
      }
    });
  };

  document.addEventListener("submit", (event) => {
    const form = event.target;
    const by = event.submitter;
    if (!form.hasAttribute("data-live") && !form.hasAttribute("data-auto")) return;
    event.preventDefault();
    send(form, by && by.name, by && by.value);
  });

  window.addEventListener("popstate", () => location.reload());

  // A card is saved as it is ticked.
  document.addEventListener("change", (event) => {
    const form = event.target.closest("form[data-auto]");
    if (form) send(form, "do", "save", true);
  });

  try {
    const [path, typed] = JSON.parse(sessionStorage.getItem(TYPED) || "[\"\", []]");
    if (path === location.pathname) {
      sessionStorage.removeItem(TYPED);
      typed.forEach(([id, value]) => {
        const field = document.getElementById(id);
        if (field) field.value = value;
      });
    }
  } catch (e) { /* A browser that keeps nothing. */ }
})();
