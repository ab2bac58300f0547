package sectorglass.workbench.parts;

import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.workbench.findings.AcceptedWords;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.OpenDisk;

/** A finding in words. */
final class FindingProse {

    private FindingProse() {
    }

    static Prose of(Finding finding, OpenDisk open, Job.Accepted accepted) {
        int size = open.image().sectorSize();
        Prose prose = new Prose();
        prose.title(SafeText.of(finding.what()));
        prose.line(Texts.of("finding.severity"), Sign.of(finding).letter() + " " + Sign.of(finding).word());
        if (accepted != null) {
            prose.line(Texts.of("finding.accepted"), AcceptedWords.of(accepted));
        }
        prose.line(Texts.of("finding.where"), where(finding, size));
        prose.wrong(Texts.of("finding.stored"), SafeText.of(finding.stored()));
        prose.line(Texts.of("finding.computed"), SafeText.of(finding.computed()));
        prose.line(Texts.of("finding.reason"), SafeText.of(finding.reason()));
        prose.gap();
        prose.line(Texts.of("finding.means"), SafeText.of(finding.means()));
        prose.line(Texts.of("finding.advice"), SafeText.of(finding.advice()));
        prose.gap();
        prose.line(Texts.of("finding.source"), SafeText.of(finding.source()));
        prose.line(Texts.of("finding.check"), finding.check());
        if (finding.count() > 1) {
            prose.line(Texts.of("finding.count"), Texts.of("finding.count.text", finding.count() - 1));
        }
        return prose;
    }

    static String where(Finding finding, int sectorSize) {
        long start = finding.where().start();
        String bytes = finding.where().length() == 1 ? Texts.of("finding.byte", start % sectorSize)
                : Texts.of("finding.bytes", start % sectorSize, start % sectorSize + finding.where().length() - 1);
        return "LBA " + Numbers.grouped(start / sectorSize) + ", " + bytes + " ("
                + Texts.of("caret.image", Numbers.grouped(start), Numbers.hex(start, 1)) + ")";
    }
}
