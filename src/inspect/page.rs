//! An inspection as one page that stands alone: no script, no request, numbers that lead to their findings and back.

use std::fmt::Write;

use super::list::{heading, listed, place, reason, severity, sliding, waist};
use super::{Inspection, Numbered};
use crate::pictures::Subject;
use crate::pictures::marked::{self, Mark};

/// Findings that get a cut-out of their own; further ones are listed and marked.
const MOST_CUT_OUTS: usize = 300;

const STYLE: &str = "\
:root{color-scheme:light}body{margin:0 auto;max-width:72rem;padding:2rem 1.5rem 4rem;background:#fbf8f2;color:#1d1a17;\
font:1rem/1.5 system-ui,sans-serif}h1,h2{font-family:Georgia,serif;font-weight:500;line-height:1.2}h1{margin:0 0 1rem}h2{margin:2.5rem 0 .75rem}\
svg{max-width:100%;height:auto;display:block}.whole{border-top:1px solid #cfc6ba;border-bottom:1px solid #cfc6ba;padding:1rem 0}.whole svg{margin:0 auto}\
ol.findings{list-style:none;margin:0;padding:0}ol.findings>li{display:grid;grid-template-columns:15rem 1fr;gap:0 1.5rem;padding:1.25rem 0;border-bottom:1px solid #cfc6ba}\
ol.findings>li:target{background:#f3ead9}ol.findings h3{margin:0 0 .25rem;font-size:1rem}ol.findings p{margin:.25rem 0;max-width:38rem}\
.problem{color:#b3261e}.note{color:#1f5a8c}.none{color:#6b6258}dt{font-weight:600}dl{margin:.25rem 0}dl div{display:flex;gap:.5rem}\
table{border-collapse:collapse}td,th{padding:.25rem 1.25rem .25rem 0;text-align:left;vertical-align:top;border-bottom:1px solid #e3dbd0}\
td{font-variant-numeric:tabular-nums}@media(max-width:40rem){ol.findings>li{grid-template-columns:1fr}}@media print{body{padding:0}ol.findings>li{break-inside:avoid}}";

/// The page of one design; `subject` is what its picture is drawn from.
pub fn page(inspection: &Inspection, subject: &Subject) -> String {
    let marks = inspection.marks();
    let title = escaped(&heading(inspection));
    let whole = marked::overview(subject, &marks, |m| Some(format!("#f{}", m.number)));
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\
         <meta name=\"robots\" content=\"noindex\"><title>{title}</title><style>{STYLE}</style></head>\n<body><h1>{title}</h1>\n\
         <div class=\"whole\">{}</div>\n",
        whole.svg
    );
    findings(&mut out, inspection, subject, &marks);
    section(&mut out, "Equal pieces", inspection.twins.iter().map(|class| listed(class)));
    section(&mut out, "Narrowest waists under the limit", inspection.waists.iter().map(waist));
    section(&mut out, "Edge joints that slide", inspection.sliding.iter().map(sliding));
    out.push_str("<h2>Limits, and who set them</h2>\n<table><tr><th>Limit<th>Value<th>From<th>Why\n");
    for l in &inspection.limits {
        let _ = writeln!(out, "<tr><td><code>{}</code><td>{}<td>{}<td>{}", l.key, l.value, l.from.name(), reason(l));
    }
    out.push_str("</table>\n<p class=\"none\">This page shows cut lines: it is for the bench, not for the catalogue.</p>\n</body></html>\n");
    out
}

fn findings(out: &mut String, inspection: &Inspection, subject: &Subject, marks: &[Mark]) {
    if inspection.findings.is_empty() {
        return;
    }
    out.push_str("<h2>Findings</h2>\n<ol class=\"findings\">\n");
    let mut left = MOST_CUT_OUTS;
    for f in &inspection.findings {
        let near = marks.iter().find(|m| m.number == f.number).filter(|_| left > 0);
        left -= usize::from(near.is_some());
        let picture = match near {
            Some(mark) => marked::cut_out(subject, mark).svg,
            None => "<span class=\"none\"></span>".to_owned(),
        };
        let _ = writeln!(out, "<li id=\"f{}\"><div>{picture}</div><div>{}</div></li>", f.number, told(f));
    }
    out.push_str("</ol>\n");
}

fn told(f: &Numbered) -> String {
    let kind = severity(f.finding.severity);
    let place = match f.finding.at_mm {
        Some(at) => format!(", at <a href=\"#m{}\">{}</a>", f.number, place(at)),
        None => ", of the design as a whole".to_owned(),
    };
    format!(
        "<h3>{}. {} <span class=\"{kind}\">{kind}</span>{place}</h3><p>{}</p><p>{}</p><p><strong>Do:</strong> {}</p>",
        f.number,
        f.finding.kind.name(),
        escaped(&f.finding.message),
        escaped(f.why),
        escaped(&f.finding.mend)
    )
}

fn section(out: &mut String, name: &str, lines: impl Iterator<Item = String>) {
    let lines: Vec<String> = lines.map(|l| format!("<li>{}", escaped(&l))).collect();
    if !lines.is_empty() {
        let _ = writeln!(out, "<h2>{name}</h2>\n<ul>{}</ul>", lines.join("\n"));
    }
}

/// Text for HTML. What stands between backticks becomes code.
fn escaped(text: &str) -> String {
    let plain = text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;");
    let parts: Vec<&str> = plain.split('`').collect();
    if parts.len().is_multiple_of(2) {
        return plain;
    }
    parts
        .iter()
        .enumerate()
        .map(|(i, p)| if i % 2 == 1 { format!("<code>{p}</code>") } else { (*p).to_owned() })
        .collect()
}
