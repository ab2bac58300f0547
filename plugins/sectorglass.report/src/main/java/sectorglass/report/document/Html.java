package sectorglass.report.document;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Locale;

import sectorglass.image.SafeText;

/** Writes a document as one HTML file without anything from outside: it prints, and it can be sent as it is. */
public final class Html implements AutoCloseable {
    private static final String STYLE = """
            :root{--ink:#1a1a1a;--quiet:#5a5a5a;--line:#c9c9c9;--paper:#fff;--soft:#f4f4f2;--whole:#0072B2;--damaged:#E69F00;--lost:#595959}
            *{box-sizing:border-box}
            body{font:11pt/1.5 "DejaVu Sans","Noto Sans","Segoe UI","Helvetica Neue",Arial,sans-serif;color:var(--ink);background:var(--paper);max-width:60rem;margin:2.5rem auto;padding:0 1.5rem}
            h1{font-size:1.9em;line-height:1.2;margin:0 0 .3em}h2{font-size:1.2em;margin:2.2em 0 .5em;break-after:avoid}
            .below{color:var(--quiet);margin:0 0 2em}.below span{margin-right:1.5em}
            p{margin:.5em 0;max-width:46rem}
            .notice{border-left:4px solid var(--damaged);background:var(--soft);padding:.6em 1em;margin:1em 0;max-width:46rem}
            .wide{overflow-x:auto}
            table{border-collapse:collapse;width:100%;margin:.6em 0;font-size:.9em}
            th{text-align:left;font-weight:600;border-bottom:1.5px solid var(--ink);padding:.3em .8em .3em 0;vertical-align:bottom}
            td{border-bottom:1px solid var(--line);padding:.3em .8em .3em 0;vertical-align:top;overflow-wrap:anywhere}
            th.n,td.n{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums;overflow-wrap:normal}
            tr.strong td{font-weight:600;border-bottom:1.5px solid var(--ink)}thead{display:table-header-group}tr{break-inside:avoid}
            .bars{display:grid;grid-template-columns:max-content 1fr max-content;gap:.45em 1em;align-items:center;margin:1em 0;font-size:.9em}
            .bars svg{width:100%;height:1.1em;display:block}.key span{margin-right:1.6em;font-size:.85em;color:var(--quiet)}
            .key svg{width:1em;height:1em;vertical-align:-.1em;margin-right:.4em}
            .approval{border:1.5px solid var(--ink);padding:1.2em 1.5em;margin:1em 0;break-inside:avoid}
            .approval .box{display:inline-block;width:1em;height:1em;border:1.5px solid var(--ink);margin-right:.7em;vertical-align:-.12em}
            .approval .line{display:inline-block;width:46%;margin:3em 3% 0 0;border-top:1px solid var(--ink);font-size:.85em;color:var(--quiet);padding-top:.2em}
            .pictures{display:grid;grid-template-columns:repeat(auto-fill,minmax(160px,1fr));gap:1.2em 1em;align-items:end;margin:1em 0}
            figure{margin:0;break-inside:avoid}figure img{display:block;max-width:100%;height:auto;border:1px solid var(--line)}
            figcaption{font-size:.8em;line-height:1.35;color:var(--quiet);margin-top:.3em;overflow-wrap:anywhere}
            nav{margin:1em 0;font-size:.9em}nav a{margin-right:1em}a{color:#005a8f}
            @page{size:A4;margin:18mm}@media print{body{margin:0;max-width:none;padding:0;font-size:9.5pt}nav{display:none}}
            """;
    private static final String PATTERNS = "<defs><pattern id=\"slant\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">"
            + "<rect width=\"6\" height=\"6\" fill=\"#E69F00\"/><rect width=\"2\" height=\"6\" fill=\"#7a4f00\"/></pattern><pattern id=\"cross\" width=\"5\" height=\"5\" "
            + "patternUnits=\"userSpaceOnUse\"><rect width=\"5\" height=\"5\" fill=\"#8c8c8c\"/><path d=\"M0 0L5 5M5 0L0 5\" stroke=\"#fff\" stroke-width=\"1\"/></pattern></defs>";
    private static final String[] FILLS = {"#0072B2", "url(#slant)", "url(#cross)", "#d9d9d9"};

    private final Writer out;

    /**
     * Begins a file.
     *
     * @throws java.nio.file.FileAlreadyExistsException if it exists
     */
    public Html(Path file, String title, Locale locale) throws IOException {
        out = Files.newBufferedWriter(file, StandardCharsets.UTF_8, java.nio.file.StandardOpenOption.CREATE_NEW);
        raw("<!DOCTYPE html>\n<html lang=\"" + locale.getLanguage() + "\">\n<head>\n<meta charset=\"utf-8\">\n"
                + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" + text(title) + "</title>\n<style>\n" + STYLE + "</style>\n</head>\n<body>\n"
                + "<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\">" + PATTERNS + "</svg>\n");
    }

    /** Text as HTML: nothing in it comes alive, nothing in it is invisible. */
    public static String text(String any) {
        String safe = SafeText.of(any);
        StringBuilder html = new StringBuilder(safe.length() + 16);
        for (int i = 0; i < safe.length(); i++) {
            char c = safe.charAt(i);
            switch (c) {
                case '<' -> html.append("&lt;");
                case '>' -> html.append("&gt;");
                case '&' -> html.append("&amp;");
                case '"' -> html.append("&quot;");
                case '\'' -> html.append("&#39;");
                default -> html.append(c);
            }
        }
        return html.toString();
    }

    /** Writes markup as it is: for what is no text from a disk. */
    public void raw(String html) {
        try {
            out.write(html);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Writes blocks. */
    public Html add(List<? extends Block> blocks) {
        blocks.forEach(this::add);
        return this;
    }

    /** Writes a block. */
    public Html add(Block block) {
        if (block instanceof Block.Title title) {
            raw("<h1>" + text(title.text()) + "</h1>\n<p class=\"below\">");
            title.below().forEach(line -> raw("<span>" + text(line) + "</span> "));
            raw("</p>\n");
        } else if (block instanceof Block.Heading heading) {
            raw("<h2>" + text(heading.text()) + "</h2>\n");
        } else if (block instanceof Block.Paragraph paragraph) {
            raw("<p>" + text(paragraph.text()) + "</p>\n");
        } else if (block instanceof Block.Notice notice) {
            raw("<p class=\"notice\">" + text(notice.text()) + "</p>\n");
        } else if (block instanceof Block.Table table) {
            table(table);
        } else if (block instanceof Block.Bars bars) {
            bars(bars);
        } else if (block instanceof Block.Pictures pictures) {
            raw("<div class=\"pictures\">\n");
            pictures.pictures().forEach(this::picture);
            raw("</div>\n");
        } else if (block instanceof Block.Approval approval) {
            raw("<div class=\"approval\">\n");
            approval.ticks().forEach(tick -> raw("<p><span class=\"box\"></span>" + text(tick) + "</p>\n"));
            approval.lines().forEach(line -> raw("<span class=\"line\">" + text(line) + "</span>\n"));
            raw("</div>\n");
        }
        return this;
    }

    private void picture(Block.Picture picture) {
        raw("<figure><img src=\"data:image/jpeg;base64," + Base64.getEncoder().encodeToString(picture.jpeg()) + "\" width=\"" + picture.width() + "\" height=\""
                + picture.height() + "\" alt=\"" + text(picture.name()) + "\"><figcaption><bdi>" + text(picture.name()) + "</bdi></figcaption></figure>\n");
    }

    private void table(Block.Table table) {
        raw("<div class=\"wide\"><table>\n");
        head(table.columns(), table.right());
        for (int i = 0; i < table.rows().size(); i++) {
            row(table.rows().get(i), table.right(), table.strong().contains(i));
        }
        raw("</tbody></table></div>\n");
    }

    /** Begins a table whose rows come one by one; ends with {@link #tableEnd}. */
    public void tableBegin(List<String> columns, boolean[] right) {
        raw("<div class=\"wide\"><table>\n");
        head(columns, right);
    }

    /** Ends a table. */
    public void tableEnd() {
        raw("</tbody></table></div>\n");
    }

    private void head(List<String> columns, boolean[] right) {
        raw("<thead><tr>");
        for (int i = 0; i < columns.size(); i++) {
            raw("<th" + (right[i] ? " class=\"n\">" : ">") + text(columns.get(i)) + "</th>");
        }
        raw("</tr></thead><tbody>\n");
    }

    /** A row of a table. */
    public void row(List<String> cells, boolean[] right, boolean strong) {
        StringBuilder html = new StringBuilder(strong ? "<tr class=\"strong\">" : "<tr>");
        for (int i = 0; i < cells.size(); i++) {
            html.append(right[i] ? "<td class=\"n\">" : "<td><bdi>").append(text(cells.get(i))).append(right[i] ? "</td>" : "</bdi></td>");
        }
        raw(html.append("</tr>\n").toString());
    }

    private void bars(Block.Bars bars) {
        raw("<p class=\"key\">");
        for (int i = 0; i < bars.parts().size(); i++) {
            raw("<span><svg viewBox=\"0 0 10 10\" aria-hidden=\"true\"><rect width=\"10\" height=\"10\" fill=\"" + FILLS[i] + "\"/></svg>" + text(bars.parts().get(i)) + "</span>");
        }
        raw("</p>\n<div class=\"bars\">\n");
        double most = bars.bars().stream().mapToDouble(bar -> java.util.Arrays.stream(bar.sizes()).sum()).max().orElse(0);
        for (Block.Bar bar : bars.bars()) {
            raw("<span>" + text(bar.name()) + "</span><svg viewBox=\"0 0 1000 14\" preserveAspectRatio=\"none\" role=\"img\" aria-label=\"" + text(bar.value()) + "\">");
            double at = 0;
            for (int i = 0; i < bar.sizes().length; i++) {
                double width = most == 0 ? 0 : bar.sizes()[i] * 1000 / most;
                width = width > 0 ? Math.max(2, width) : 0;
                if (width > 0) {
                    raw(String.format(Locale.ROOT, "<rect x=\"%.1f\" width=\"%.1f\" height=\"14\" fill=\"%s\"/>", at, width, FILLS[i]));
                }
                at += width;
            }
            raw("</svg><span>" + text(bar.value()) + "</span>\n");
        }
        raw("</div>\n");
    }

    @Override
    public void close() throws IOException {
        try {
            raw("</body>\n</html>\n");
        } finally {
            out.close();
        }
    }
}
