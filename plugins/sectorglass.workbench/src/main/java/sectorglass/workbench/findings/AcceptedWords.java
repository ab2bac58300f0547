package sectorglass.workbench.findings;

import java.time.ZoneId;

import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.workbench.look.Texts;

/** Who accepted a finding, when, and why. */
public final class AcceptedWords {

    private AcceptedWords() {
    }

    /** One sentence. */
    public static String of(Job.Accepted one) {
        String day = one.at() == null ? "" : one.at().atZone(ZoneId.systemDefault()).toLocalDate().toString();
        String said = Texts.of(one.firstByte() == null ? "finding.accepted.everywhere" : "finding.accepted.by", SafeText.of(String.valueOf(one.who())), day);
        return one.note() == null ? said : said + ": " + SafeText.of(one.note());
    }
}
