package firmlever.comeback.report.page;

/** How the page looks, on a screen and on paper. */
final class Style {
  private Style() {}

  static final String SHEET =
      """
      :root { color-scheme: light; --ink: #1c2b33; --deep: #0b5563; --paper: #faf9f5; --rule: #c9d0d2; }
      * { box-sizing: border-box; }
      body { margin: 0; font: 16px/1.5 system-ui, sans-serif; color: var(--ink); background: var(--paper); }
      header, main, footer { max-width: 68rem; margin: 0 auto; padding: 0 1rem; }
      header { padding-top: 1.2rem; }
      h1 { font-size: 1.7rem; margin: 0 0 .3rem; }
      h2 { font-size: 1.15rem; margin: 0 0 .4rem; color: var(--deep); }
      section > h2 { font-size: 1.4rem; margin-top: 2.2rem; border-top: 2px solid var(--deep); padding-top: .7rem; }
      h3 { margin: 1.4rem 0 .3rem; font-size: 1.05rem; }
      p { margin: .3rem 0 .6rem; max-width: 48rem; }
      a { color: #07495a; text-decoration-thickness: 1px; text-underline-offset: 2px; }
      .answers { display: grid; grid-template-columns: repeat(auto-fit, minmax(19rem, 1fr)); gap: .9rem; margin-top: 1rem; }
      .answers article { background: #fff; border: 1px solid var(--rule); border-top: 4px solid var(--deep); padding: .8rem 1rem; }
      .answers p { margin: 0 0 .5rem; font-size: .95rem; }
      .answers a { font-weight: 700; white-space: nowrap; }
      nav ul { list-style: none; display: flex; flex-wrap: wrap; gap: .3rem 1.1rem; padding: 0; margin: 1.2rem 0 0; }
      figure { margin: .8rem 0; }
      .chart { overflow-x: auto; background: #fff; border: 1px solid var(--rule); }
      .chart svg { display: block; width: 100%; min-width: 34rem; max-width: 52rem; height: auto; margin: 0 auto; }
      figcaption, caption { font-size: .88rem; color: #44545c; text-align: left; padding: .3rem 0; }
      .scroll { overflow-x: auto; margin: .5rem 0 1rem; }
      table { border-collapse: collapse; font-size: .9rem; background: #fff; }
      th, td { border: 1px solid var(--rule); padding: .25rem .55rem; text-align: left; vertical-align: top; }
      thead th { background: #e8eeee; }
      tbody th { font-weight: 600; }
      td.wide { min-width: 20rem; }
      .pattern { background: #fff; border: 1px solid var(--rule); border-left: 5px solid #8a5a00; padding: .2rem 1rem .8rem; margin: .8rem 0; }
      dt { font-weight: 700; margin-top: .4rem; } dd { margin: 0; max-width: 48rem; }
      summary { cursor: pointer; padding: .15rem 0; }
      :target { background: #fff2c9; outline: 2px solid #8a5a00; }
      footer { border-top: 1px solid var(--rule); margin-top: 2rem; padding-top: .6rem; padding-bottom: 2rem; font-size: .9rem; }
      @page { margin: 12mm; }
      @media print { body { background: #fff; font-size: 9.5pt; line-height: 1.35; } header, main, footer { max-width: none; padding: 0; } nav { display: none; } a { color: inherit; text-decoration: none; }
        main > section:not(.answers):not(#months):not(#patterns), details { display: none; }
        .answers { display: block; columns: 2; } .answers article { margin-bottom: 4mm; } article, figure, tr { break-inside: avoid; } .chart svg { min-width: 0; max-height: 8cm; }
        section > h2, footer { margin-top: .8rem; padding-bottom: 0; } p, dd { max-width: none; } }
      """;
}
