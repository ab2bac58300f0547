package sectorglass.report.delivery;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.FileStamp;
import sectorglass.image.Progress;
import sectorglass.image.SafeText;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.DamagePlace;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.report.document.Html;

/** The full list: one CSV, and HTML pages of a thousand rows; written row by row. */
final class FileLists {
    private static final int PER_PAGE = 1000;
    private static final boolean[] RIGHT = {false, true, false, false};

    private final ReportInput input;
    private final Forms forms;
    private final Rows rows;
    private final Progress progress;
    private long done;

    FileLists(ReportInput input, Forms forms, Progress progress) {
        this.input = input;
        this.forms = forms;
        this.rows = new Rows(input, forms);
        this.progress = progress;
    }

    /** Writes the CSV. */
    void csv(Path file) throws IOException {
        try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            out.write("volume,path,bytes,read_bytes,state,damage,empty_inside,kind,modified,test,type,test_reason\n");
            rows.visit(EnumSet.allOf(Rows.Group.class), (index, entry, group) -> {
                try {
                    line(out, index, entry);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
                return step();
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private boolean step() {
        progress.checkCancelled();
        if ((++done & 0xFFF) == 0) {
            progress.at("list of files", done, 0);
        }
        return true;
    }

    private void line(Writer out, int index, int entry) throws IOException {
        Outcome outcome = input.outcomes().get(index);
        StringBuilder damage = new StringBuilder();
        if (outcome.state(entry) == sectorglass.disk.FileState.DAMAGED) {
            for (DamagePlace place : outcome.damage(entry)) {
                damage.append(damage.isEmpty() ? "" : " ").append(place.range().start()).append('+').append(place.range().length()).append(':').append(place.part().word());
            }
        }
        TestResult test = input.test(index, entry);
        FileStamp stamp = outcome.tree().modified(entry);
        long bytes = outcome.tree().bytes(entry);
        out.write(outcome.volume().number() + "," + cell(outcome.tree().path(entry)) + "," + (bytes < 0 ? "" : String.valueOf(bytes)) + "," + outcome.readBytes(entry) + ","
                + outcome.state(entry).word() + "," + damage + "," + (outcome.emptyInside(entry) ? "yes" : "") + "," + FileKind.of(outcome.tree().name(entry)).word() + ","
                + (stamp == null ? "" : stamp) + "," + (test == null ? "" : test.answer().word()) + "," + (test == null || test.type() == null ? "" : test.type().id()) + ","
                + (test == null ? "" : cell(test.sentence(Locale.ENGLISH))) + "\n");
    }

    /** Quoted where needed; a cell that a spreadsheet would take for a formula gets an apostrophe. */
    static String cell(String text) {
        String safe = SafeText.of(text);
        if (!safe.isEmpty() && "=+-@".indexOf(safe.charAt(0)) >= 0) {
            safe = "'" + safe;
        }
        return safe.indexOf('"') < 0 && safe.indexOf(',') < 0 ? safe : "\"" + safe.replace("\"", "\"\"") + "\"";
    }

    /** Writes the pages into a folder; returns how many there are, at least one. */
    int pages(Path folder, long files) throws IOException {
        int pages = (int) Math.max(1, (files + PER_PAGE - 1) / PER_PAGE);
        Html[] page = {null};
        int[] at = {0, 0};
        try {
            page[0] = begin(folder, 1, pages);
            at[0] = 1;
            rows.visit(EnumSet.allOf(Rows.Group.class), (index, entry, group) -> {
                if (at[1] == PER_PAGE) {
                    try {
                        end(page[0], at[0], pages);
                        page[0] = null;
                        page[0] = begin(folder, ++at[0], pages);
                    } catch (IOException e) {
                        throw new UncheckedIOException(e);
                    }
                    at[1] = 0;
                }
                at[1]++;
                String words = rows.words(index, entry, group);
                page[0].row(List.of(rows.path(index, entry), forms.size(rows.bytes(index, entry)), rows.state(group) + (words.isEmpty() ? "" : ": " + words),
                        rows.date(index, entry)), RIGHT, false);
                return step();
            });
            end(page[0], at[0], pages);
            page[0] = null;
            return pages;
        } catch (UncheckedIOException e) {
            throw e.getCause();
        } finally {
            if (page[0] != null) {
                page[0].close();
            }
        }
    }

    private static String name(int page) {
        return String.format(Locale.ROOT, "files-%04d.html", page);
    }

    private Html begin(Path folder, int page, int pages) throws IOException {
        Html html = new Html(folder.resolve(name(page)), forms.of("list.title", page, pages), forms.locale());
        html.raw("<h1>" + Html.text(forms.of("list.title", page, pages)) + "</h1>\n");
        links(html, page, pages);
        html.tableBegin(List.of(forms.of("column.file"), forms.of("column.size"), forms.of("column.state"), forms.of("column.date")), RIGHT);
        return html;
    }

    private void end(Html html, int page, int pages) throws IOException {
        html.tableEnd();
        links(html, page, pages);
        html.close();
    }

    private void links(Html html, int page, int pages) {
        html.raw("<nav>" + (page > 1 ? "<a href=\"" + name(page - 1) + "\">" + Html.text(forms.of("list.before")) + "</a>" : "")
                + (page < pages ? "<a href=\"" + name(page + 1) + "\">" + Html.text(forms.of("list.next")) + "</a>" : "") + "<a href=\"../customer.html\">"
                + Html.text(forms.of("customer.title")) + "</a></nav>\n");
    }
}
