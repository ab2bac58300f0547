package sectorglass.workbench.recovery.proposals;

import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.image.SafeText;
import sectorglass.recovery.propose.Effect;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.Turn;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** A proposal in words: why, step by step, which checks turn, what stays, what speaks against it. */
final class ProposalProse {
    private static final int MOST = 20;

    private ProposalProse() {
    }

    static String of(Proposal proposal, int sectorSize) {
        StringBuilder text = new StringBuilder();
        line(text, proposal.reason());
        if (proposal.agreement()) {
            line(text, Words.of("prose.agree"));
        }
        if (proposal.steps().size() > 1) {
            for (int i = 0; i < proposal.steps().size(); i++) {
                Repair step = proposal.steps().get(i);
                line(text, "\n" + Words.of("prose.step", i + 1, step.title()));
                line(text, step.reason());
            }
        }
        Effect effect = proposal.effect();
        turns(text, "prose.turned", effect.turned(), sectorSize);
        turns(text, "prose.worse", effect.worse(), sectorSize);
        if (!proposal.against().isEmpty()) {
            line(text, "\n" + Words.of("prose.against"));
            proposal.against().forEach(against -> line(text, "–  " + against));
        }
        if (!proposal.kept().isEmpty()) {
            line(text, "\n" + Words.of("prose.kept"));
            proposal.kept().stream().limit(MOST).forEach(kept -> line(text, "–  " + Words.of("prose.kept.one", kept.field(),
                    Numbers.grouped(kept.where().start() / sectorSize), kept.why())));
        }
        if (!effect.seen().isEmpty()) {
            turns(text, "prose.seen", effect.seen(), sectorSize);
        }
        return text.toString().strip();
    }

    private static void turns(StringBuilder text, String key, List<Turn> turns, int sectorSize) {
        if (turns.isEmpty()) {
            return;
        }
        line(text, "\n" + Words.of(key));
        turns.stream().limit(MOST).forEach(turn -> line(text, "–  " + Words.of("prose.turn", turn.check(),
                Numbers.grouped(turn.where().start() / sectorSize), word(turn.from()), word(turn.to()))));
        if (turns.size() > MOST) {
            line(text, "–  " + Words.of("prose.more", turns.size() - MOST));
        }
    }

    private static String word(sectorglass.verify.Verdict verdict) {
        return Words.of("prose.verdict." + (verdict == null ? "none" : verdict.name().toLowerCase(java.util.Locale.ROOT)));
    }

    private static void line(StringBuilder text, String line) {
        String safe = line.startsWith("\n") ? "\n" + SafeText.of(line.substring(1)) : SafeText.of(line);
        text.append(safe).append('\n');
    }
}
