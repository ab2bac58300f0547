package sectorglass.practice.lesson.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

import sectorglass.practice.lesson.GlossaryTerm;
import sectorglass.practice.lesson.LessonPack;
import sectorglass.practice.lesson.LessonProblem;
import sectorglass.practice.lesson.Words;

/** Reads a {@code .terms} file. */
public final class GlossaryReader {
    private final String file;
    private final List<LessonProblem> problems;

    /** @param problems mistakes are added to it */
    public GlossaryReader(String file, List<LessonProblem> problems) {
        this.file = file;
        this.problems = problems;
    }

    /** The terms without a mistake, in the order of the file. */
    public List<GlossaryTerm> read(LessonPack pack) {
        List<Block> blocks = new KeyFile(file, problems).read(pack, Set.of("term"));
        List<GlossaryTerm> terms = new ArrayList<>();
        for (int i = 0; i < blocks.size(); i++) {
            Block block = blocks.get(i);
            if (i > 0) {
                int before = problems.size();
                String id = block.id("term");
                Words name = block.words("name", true);
                Words forms = block.words("forms", false);
                Words text = block.words("text", true);
                Map<String, List<String>> split = new LinkedHashMap<>();
                if (forms != null) {
                    forms.byLanguage().forEach((language, list) -> split.put(language, Stream.of(list.split(",")).map(String::strip).toList()));
                }
                if (problems.size() == before) {
                    terms.add(new GlossaryTerm(id, name, Map.copyOf(split), text));
                }
            }
            block.end();
        }
        return terms;
    }
}
