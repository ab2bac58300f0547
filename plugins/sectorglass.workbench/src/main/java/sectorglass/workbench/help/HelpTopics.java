package sectorglass.workbench.help;

import java.util.List;

import org.eclipse.ui.IWorkbenchPart;

import sectorglass.workbench.look.Texts;

/** The pages of the help, and which of them belongs to a part. */
public final class HelpTopics {
    /** The card of keys. */
    public static final String CARD = "card";
    /** The chapter on sector 0. */
    public static final String LEARN = "sector0";
    /** The user guide. */
    public static final String GUIDE = "guide";
    /** What to mind before anything else. */
    public static final String CAUTIONS = "cautions";

    private static final List<String> ALL = List.of("start", LEARN, CARD, "signs", "strip", "disk", "sectors", "fields", "meaning", "findings", "find",
            "converter", "files", "plan", "copies", "lessons", "teaching", CAUTIONS, GUIDE);

    private HelpTopics() {
    }

    /** All pages, in the order of the list. */
    public static List<String> all() {
        return ALL;
    }

    /** Its title. */
    public static String title(String topic) {
        return Texts.of("page." + topic + ".title");
    }

    /** The page of a part: that with the last word of its id; the first page where there is none. */
    public static String of(IWorkbenchPart part) {
        String id = part == null ? "" : part.getSite().getId();
        String word = id.substring(id.lastIndexOf('.') + 1);
        return ALL.contains(word) ? word : ALL.get(0);
    }
}
