package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.List;

import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.SpecException;

/** What the index says of a spec. */
public final class IndexLine {

    private IndexLine() {
    }

    /** The line of a spec without its end: id, title, file, kinds joined by commas, with tabs between. */
    public static String of(String file, String text) throws SpecException {
        Problems problems = new Problems();
        YamlMap map = YamlReader.read(file, text, problems);
        YamlMap meta = map == null ? null : map.map("meta");
        String id = meta == null ? null : meta.text("id");
        if (problems.none() && (id == null || !Words.isId(id))) {
            problems.add(file, meta == null ? null : meta.node(), "a spec needs meta/id: small letters, digits and underscores");
        }
        if (!problems.none()) {
            throw new SpecException(problems.list());
        }
        String title = meta.text("title");
        List<String> kinds = new ArrayList<>();
        Node given = meta.get("-kinds");
        if (given instanceof ScalarNode one) {
            kinds.add(one.getValue().strip());
        } else {
            for (Node item : meta.list("-kinds")) {
                kinds.add(item instanceof ScalarNode scalar ? scalar.getValue().strip() : "");
            }
        }
        return id + '\t' + plain(title == null ? id : title) + '\t' + file + '\t' + plain(String.join(",", kinds));
    }

    private static String plain(String text) {
        return text.replaceAll("\\s+", " ").strip();
    }
}
