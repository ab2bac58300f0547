package sectorglass.workbench.recovery.files;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.eclipse.swt.widgets.Shell;

import sectorglass.disk.Content;
import sectorglass.disk.Disk;
import sectorglass.disk.Extent;
import sectorglass.image.Progress;
import sectorglass.image.SafeText;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.recovery.outcome.WantedList;
import sectorglass.recovery.outcome.WishAnswer;
import sectorglass.report.delivery.WishSentences;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.LineWindow;
import sectorglass.workbench.recovery.Words;

/** Answers to a customer's wanted list, a line per wish; a line leads to the first file that it means. */
final class WishWindow {

    private WishWindow() {
    }

    /** Reads a list and answers it from all volumes; off the window's thread. */
    static List<WishAnswer> answers(Path list, Disk disk, Progress progress) throws IOException {
        WantedList wanted = WantedList.load(list);
        List<Outcome> outcomes = new ArrayList<>();
        for (VolumeFiles volume : VolumeFiles.of(disk)) {
            outcomes.add(Outcome.of(volume, true, progress));
        }
        return WishAnswer.of(wanted, outcomes, progress);
    }

    /** Shows answers. */
    static void open(Shell shell, List<WishAnswer> answers, int sectorSize) {
        List<LineWindow.Line> lines = new ArrayList<>();
        for (WishAnswer one : answers) {
            lines.add(new LineWindow.Line(lba(one, sectorSize), String.valueOf(one.wish().line()), Numbers.grouped(one.totals().files()), Numbers.size(one.totals().bytes()),
                    SafeText.of(WishSentences.wish(one.wish(), Locale.getDefault())), WishSentences.answer(one, Locale.getDefault())));
        }
        long unread = answers.isEmpty() ? 0 : answers.get(0).unreadMetadata();
        String[] columns = {Words.of("wishes.line"), Words.of("wishes.files"), Words.of("wishes.bytes"), Words.of("wishes.wish"), Words.of("wishes.answer")};
        new LineWindow(shell, Words.of("wishes.title"), Words.of("wishes.sum", answers.size())
                + (unread == 0 ? "" : " " + Words.of("files.unread", Numbers.grouped(unread))), columns, new int[] {50, 70, 150, 260, 400}, 3, lines).open();
    }

    private static long lba(WishAnswer answer, int sectorSize) {
        for (WishAnswer.Place place : answer.some()) {
            Content content = place.outcome().files().content(place.entry(), "");
            for (Extent extent : content == null ? List.<Extent>of() : content.extents()) {
                if (extent.placed()) {
                    return extent.imageByte() / sectorSize;
                }
            }
        }
        return -1;
    }
}
