"""Strings that try to be more than words, by kind. Kinds: OWASP, Cross Site Scripting Prevention, DOM based XSS Prevention, Injection Prevention
and CSV Injection; CommonMark for links in Markdown; ISO 32000-2 for PDF. The strings are our own."""

RUN = "document.documentElement.dataset.ran=1"

ELEMENTS = [
    f"<script>{RUN}</script>", f"<SCRIPT >{RUN}</SCRIPT >", f"<script\n>{RUN}</script\n>", f"<script src=data:,{RUN}></script>",
    f"<img src=x onerror={RUN}>", f"<img/src=x/onerror={RUN}>", f"<img src=x onerror='{RUN}'//", f'<IMG SRC="x" OnErRoR="{RUN}">',
    f"<svg onload={RUN}>", f"<svg/onload={RUN}//", f"<svg><script>{RUN}</script></svg>", f"<svg><animate onbegin={RUN} attributeName=x dur=1s>",
    f"<svg><a xlink:href='javascript:{RUN}'><text y=20>x</text></a></svg>", f"<math><mi xlink:href='javascript:{RUN}'>x</mi></math>",
    f"<body onload={RUN}>", f"<video><source onerror={RUN}></video>", f"<audio src=x onerror={RUN}>", f"<details open ontoggle={RUN}>",
    f"<input autofocus onfocus={RUN}>", f"<select autofocus onfocus={RUN}>", f"<marquee onstart={RUN}>", f"<object data='javascript:{RUN}'></object>",
    f"<embed src='javascript:{RUN}'>", f"<iframe src='javascript:{RUN}'></iframe>", f"<iframe srcdoc='<script>parent.{RUN}</script>'></iframe>",
    f"<form action='javascript:{RUN}'><button>x</button></form>", f"<isindex action='javascript:{RUN}' type=image>",
    "<meta http-equiv=refresh content='0;url=data:text/html,x'>", "<base href='https://elsewhere.example/'>", "<link rel=stylesheet href='data:text/css,*{color:red}'>",
    f"<style>@import 'javascript:{RUN}';</style>", f"<div style='background:url(javascript:{RUN})'>", f"<x onclick={RUN} autofocus tabindex=1 onfocus={RUN}>x</x>",
    f"<template><script>{RUN}</script></template>", f"<noscript><p title='</noscript><img src=x onerror={RUN}>'>", f"<plaintext onmouseover={RUN}>",
]
ATTRIBUTES = [
    f'" onmouseover="{RUN}', f"' onmouseover='{RUN}", f'" autofocus onfocus="{RUN}" x="', f"' autofocus onfocus='{RUN}' x='", f'"><script>{RUN}</script>',
    f"'><script>{RUN}</script>", f'"/><svg onload={RUN}>', f"` onmouseover=`{RUN}", f"x onmouseover={RUN} ", f'" style="animation-name:x" onanimationstart="{RUN}',
    f'\\" onmouseover=\\"{RUN}', f'&quot; onmouseover=&quot;{RUN}', f'" srcdoc="<script>{RUN}</script>', f'" href="javascript:{RUN}', f'"\nonload="{RUN}',
]
BREAKS = [
    f"</title><script>{RUN}</script>", f"</textarea><script>{RUN}</script>", f"</style><script>{RUN}</script>", f"</script><script>{RUN}</script>",
    f"</script ><img src=x onerror={RUN}>", f"</SCRIPT/><svg onload={RUN}>", f"<!--<script>{RUN}</script>", f"--><script>{RUN}</script>", f"--!><img src=x onerror={RUN}>",
    f"]]><script>{RUN}</script>", f"<![CDATA[<script>{RUN}</script>]]>", f"<?xml version='1.0'?><script>{RUN}</script>", "<!DOCTYPE x [<!ENTITY e SYSTEM 'file:///etc/passwd'>]>&e;",
    f"</head><body onload={RUN}>", f"</a></p></div><script>{RUN}</script>", f"<<script>{RUN}//<</script>", f"<scr<script>ipt>{RUN}</scr</script>ipt>", "<!--", "-->", "</", "<", "<a", "&", "&#x3c;script&#x3e;",
]
ADDRESSES = [
    f"javascript:{RUN}", f"JaVaScRiPt:{RUN}", f" javascript:{RUN}", f"java\tscript:{RUN}", f"java\nscript:{RUN}", f"javascript&colon;{RUN}", f"&#106;avascript:{RUN}",
    f"&#x6A&#x61vascript:{RUN}", f"javascript:/*--></title></style></textarea></script><svg/onload='{RUN}'>*/", f"data:text/html,<script>{RUN}</script>",
    f"data:text/html;base64,PHNjcmlwdD4=", f"vbscript:{RUN}", "file:///etc/passwd", "//elsewhere.example/x", "\\\\elsewhere.example\\x", "https:elsewhere.example", f"%6aavascript:{RUN}", f"javascript%3a{RUN}",
    f"feed:javascript:{RUN}", f"view-source:javascript:{RUN}", "blob:x", "mailto:x@example.org?bcc=y@example.org%0d%0aX: y",
]
SCRIPT_DATA = [
    f'";{RUN};//', f"';{RUN};//", f'\\";{RUN};//', f'"}}</script><script>{RUN}</script>', f'","x":"y', f"${{{RUN}}}", "\\u003cscript\\u003e", "\u2028" + RUN, f"</script\u2029>{RUN}",
    f'"-({RUN})-"', "__proto__", "constructor", "<!--<script>\"", '{"@type":"Offer"}', "\\",
]
TEMPLATES = [
    "{{ 7*7 }}", "{% raw %}{{ frame }}", "{{ frame | safe }}", "{# x #}", "{% include 'base.html' %}", "${7*7}", "#{7*7}", "<%= 7*7 %>", "{ $title }", '{ "x" }', "{ -brand }",
    '#read("/etc/passwd")', "#eval(\"7*7\")", "$7*7$", "*x* _y_ `z`", "#import \"x.typ\"", "@label <label>", "= Heading", "\\u{41}",
]
SHEETS = ["=1+1", "+1+1", "-1+1", "@SUM(1)", "=HYPERLINK(\"https://elsewhere.example\",\"x\")", "=cmd|' /C calc'!A0", " =1+1", "\t=1+1", '"=1+1', "x\",=1+1,\"", "x\r\n=1+1", "x;=1+1"]
PDF = [f") /S /JavaScript /JS ({RUN})", ") >> endobj 9 0 obj << /OpenAction << /S /Launch >>", "(((", ")))", "\\", "\\) Tj (", "<feff0041>"]

ALL = ELEMENTS + ATTRIBUTES + BREAKS + ADDRESSES + SCRIPT_DATA + TEMPLATES + SHEETS + PDF

# In Markdown, where links and emphasis have a meaning.
MARKDOWN = ALL + [
    f"[x](javascript:{RUN})", f"[x](<javascript:{RUN}>)", f"[x](java&#x09;script:{RUN})", f"[x]( javascript:{RUN} 'y')", f"[x][1]\n\n[1]: javascript:{RUN}", f"<javascript:{RUN}>",
    f"![x](x \"onerror={RUN}\")", f"![{RUN}](javascript:{RUN})", f"[x](https://example.org \"\\\" onmouseover=\\\"{RUN}\")", f"[<img src=x onerror={RUN}>](https://example.org)",
    f"```\"><script>{RUN}</script>\nx\n```", f"# </h2><script>{RUN}</script>", f"|a|b|\n|-|-|\n|<script>{RUN}</script>|[x](javascript:{RUN})|", f"<div>\n\n<script>{RUN}</script>\n\n</div>",
    f"- <script>{RUN}</script>\n- [x](data:text/html,<script>{RUN}</script>)", f"&lt;script&gt;{RUN}&lt;/script&gt;", f"\\<script>{RUN}</script>", f"<a href=\"javascript:{RUN}\">x</a>", f"`<script>{RUN}</script>`",
]
