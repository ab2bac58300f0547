package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.image.SafeText;
import sectorglass.recovery.propose.Effect;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.Turn;
import sectorglass.verify.Findings;

/** Proposals as text for people. */
final class ProposalText {
    private static final int SHOWN = 12;
    private static final int BYTES = 16;

    private final PrintStream out;
    private final int sectorSize;

    ProposalText(PrintStream out, int sectorSize) {
        this.out = out;
        this.sectorSize = sectorSize;
    }

    void print(List<Proposal> proposals, boolean brief) {
        if (proposals.isEmpty()) {
            out.println("Nothing to propose: either nothing is wrong that could be re-made, or what is left determines nothing.");
            return;
        }
        for (int i = 0; i < proposals.size(); i++) {
            print(i + 1, proposals.get(i), brief);
        }
    }

    private void print(int rank, Proposal proposal, boolean brief) {
        out.println(rank + "  " + SafeText.of(proposal.title()) + "   [" + proposal.id() + "]");
        Effect effect = proposal.effect();
        Table table = new Table("ll");
        table.row("Why", SafeText.of(proposal.reason()));
        table.row("Checks", counts(effect.before()) + "  →  " + counts(effect.after()));
        if (!effect.volumesAfter().equals(effect.volumesBefore())) {
            table.row("Volumes", effect.volumesBefore().size() + " → " + effect.volumesAfter().size() + " recognised");
        }
        if (proposal.agreement()) {
            table.row("Needs", "your agreement: it takes the stored fields for right");
        }
        if (effect.harms()) {
            table.row("Worse", "something that held does not hold with it; see below");
        }
        table.print(out, "   ");
        turns("turns", effect.turned());
        turns("worse", effect.worse());
        if (!brief) {
            steps(proposal);
        }
        turns("seen only now, not touched", effect.seen());
        out.println();
    }

    private void steps(Proposal proposal) {
        for (int i = 0; i < proposal.steps().size(); i++) {
            Repair step = proposal.steps().get(i);
            if (proposal.steps().size() > 1) {
                out.println("   step " + (i + 1) + "  " + SafeText.of(step.title()) + "   [" + step.id() + "]");
                out.println("      " + SafeText.of(step.reason()));
            }
            Table table = new Table("llll");
            int shown = 0;
            for (Repair.Change change : step.changes()) {
                if (shown++ < SHOWN) {
                    table.row("LBA " + Numbers.grouped(change.firstByte() / sectorSize), "byte " + change.firstByte() % sectorSize
                            + (change.bytes().length > 1 ? " to " + (change.firstByte() % sectorSize + change.bytes().length - 1) : ""),
                            hex(change.bytes()), SafeText.of(change.why()));
                }
            }
            table.print(out, "      ");
            if (shown > SHOWN) {
                out.println("      … and " + (shown - SHOWN) + " more ranges; the proposal file holds all");
            }
            step.kept().forEach(kept -> out.println("      stays: " + kept.field() + " (" + SafeText.of(kept.why()) + ")"));
            step.against().forEach(against -> out.println("      against: " + SafeText.of(against)));
        }
    }

    private void turns(String word, List<Turn> turns) {
        int shown = 0;
        for (Turn turn : turns) {
            if (shown++ < SHOWN) {
                out.println("      " + word + ": " + ProposeCommand.line(turn, sectorSize));
            }
        }
        if (shown > SHOWN) {
            out.println("      " + word + ": … and " + (shown - SHOWN) + " more");
        }
    }

    private static String counts(Findings.Counts c) {
        return "unusable " + c.unusable() + ", at risk " + c.atRisk() + ", cosmetic " + c.cosmetic() + ", not checked " + c.notChecked();
    }

    private static String hex(byte[] bytes) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(BYTES, bytes.length); i++) {
            text.append(i == 0 ? "" : " ").append(String.format(java.util.Locale.ROOT, "%02X", bytes[i]));
        }
        return bytes.length > BYTES ? text + " … (" + bytes.length + " bytes)" : text.toString();
    }
}
