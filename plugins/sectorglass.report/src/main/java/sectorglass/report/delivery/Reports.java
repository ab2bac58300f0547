package sectorglass.report.delivery;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.report.document.Pdf;

/**
 * Writes all reports into a folder: {@code customer.html}, {@code customer.pdf}, {@code files.csv}, {@code files/files-0001.html} and so on,
 * {@code bench.html}. A file that exists is never written over.
 */
public final class Reports {

    private Reports() {
    }

    /**
     * Writes the reports.
     *
     * @param folder made where it is missing
     * @throws java.nio.file.FileAlreadyExistsException if one of the files exists
     */
    public static void write(ReportInput input, Path folder, Progress progress) throws IOException {
        Forms forms = new Forms(input.locale());
        Files.createDirectories(folder.resolve("files"));
        CustomerReport customer = new CustomerReport(input, forms, progress);
        List<Block> blocks = customer.blocks();
        progress.at("customer's report", 0, 4);
        try (Html html = new Html(folder.resolve("customer.html"), customer.title(), input.locale())) {
            html.add(blocks);
            html.raw("<nav><a href=\"files/files-0001.html\">" + Html.text(forms.of("customer.list")) + "</a></nav>\n");
        }
        progress.at("customer's report", 1, 4);
        String reference = input.reference() == null ? "" : input.reference() + "  \u00B7  ";
        try (OutputStream out = Files.newOutputStream(folder.resolve("customer.pdf"), StandardOpenOption.CREATE_NEW)) {
            Pdf.write(blocks, customer.title(), input.locale(), (page, pages) -> reference + forms.day(input.at(), input.zone()) + "  \u00B7  "
                    + forms.of("page", page, pages), out);
        }
        progress.at("list of files", 2, 4);
        FileLists lists = new FileLists(input, forms, progress);
        lists.csv(folder.resolve("files.csv"));
        long files = input.outcomes().stream().mapToLong(outcome -> outcome.totals().files()).sum();
        lists.pages(folder.resolve("files"), files);
        progress.at("bench's report", 3, 4);
        new BenchReport(input, forms).write(folder.resolve("bench.html"));
    }
}
