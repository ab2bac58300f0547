package sectorglass.report.delivery;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import sectorglass.recovery.Job;
import sectorglass.report.document.Block;

/** What the job records beside the files: approvals that were received, findings that were accepted. */
final class JobRecords {
    private final ReportInput input;
    private final Forms forms;

    JobRecords(ReportInput input, Forms forms) {
        this.input = input;
        this.forms = forms;
    }

    /** A sentence per approval, for the customer. */
    List<Block> received() {
        List<Block> blocks = new ArrayList<>();
        for (Job.Approval one : input.job().approvals()) {
            String how = one.how() == null ? "" : ", " + one.how();
            String day = one.at() == null ? "" : forms.day(one.at(), input.zone());
            blocks.add(new Block.Paragraph(forms.of("approval.received", String.valueOf(one.by()), day, how, one.note() == null ? "" : ": " + one.note())));
        }
        return blocks;
    }

    /** Tables of approvals and accepted findings, for the bench. */
    List<Block> tables() {
        List<Block> blocks = new ArrayList<>();
        List<List<String>> approvals = new ArrayList<>();
        for (Job.Approval one : input.job().approvals()) {
            approvals.add(List.of(moment(one.at()), text(one.by()), text(one.how()), text(one.note()), text(one.who())));
        }
        table(blocks, "bench.approvals", approvals, "column.date", "bench.approved-by", "bench.how", "bench.what", "bench.recorded-by");
        List<List<String>> accepted = new ArrayList<>();
        for (Job.Accepted one : input.job().accepted()) {
            accepted.add(List.of(moment(one.at()), text(one.check()), one.firstByte() == null ? forms.of("bench.everywhere") : forms.count(one.firstByte()),
                    text(one.note()), text(one.who())));
        }
        table(blocks, "bench.accepted", accepted, "column.date", "bench.check", "bench.image-byte", "bench.reason", "bench.who");
        return blocks;
    }

    private void table(List<Block> blocks, String title, List<List<String>> rows, String... columns) {
        if (!rows.isEmpty()) {
            List<String> heads = new ArrayList<>();
            for (String column : columns) {
                heads.add(forms.of(column));
            }
            blocks.add(new Block.Heading(forms.of(title)));
            blocks.add(new Block.Table(heads, new boolean[columns.length], new double[] {1, 1, 1, 1, 1}, rows, Set.of()));
        }
    }

    private String moment(Instant at) {
        return at == null ? "" : forms.moment(at.atZone(input.zone()).toLocalDateTime());
    }

    private static String text(String text) {
        return text == null ? "" : text;
    }
}
