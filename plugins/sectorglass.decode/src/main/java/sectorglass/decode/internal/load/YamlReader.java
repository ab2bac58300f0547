package sectorglass.decode.internal.load;

import java.io.StringReader;

import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.AliasEvent;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;

/** Reads YAML as a tree of nodes with marks. Aliases are refused: they can make a small file grow without bound. */
final class YamlReader {
    private static final int MOST_CHARACTERS = 2 << 20;

    private YamlReader() {
    }

    private static Yaml yaml() {
        LoaderOptions options = new LoaderOptions();
        options.setCodePointLimit(MOST_CHARACTERS);
        options.setNestingDepthLimit(60);
        return new Yaml(new SafeConstructor(options));
    }

    /** The mapping of a file, or null with a problem. */
    static YamlMap read(String file, String text, Problems problems) {
        if (text.length() > MOST_CHARACTERS) {
            problems.add(file, null, "the file is larger than 2 MiB");
            return null;
        }
        try {
            if (text.indexOf('*') >= 0) {
                for (Event event : yaml().parse(new StringReader(text))) {
                    if (event instanceof AliasEvent) {
                        problems.add(file, event.getStartMark(), 0, "a YAML alias (*name) is not allowed in a spec: write the part out");
                        return null;
                    }
                }
            }
            Node root = yaml().compose(new StringReader(text));
            if (root instanceof MappingNode mapping) {
                return new YamlMap(file, problems, mapping);
            }
            problems.add(file, root, "a spec must be a mapping with the keys meta, seq, types …");
        } catch (MarkedYAMLException e) {
            problems.add(file, e.getProblemMark(), 0, "this is not YAML: " + e.getProblem());
        } catch (YAMLException e) {
            problems.add(file, null, "this is not YAML: " + String.valueOf(e.getMessage()).lines().findFirst().orElse(""));
        }
        return null;
    }
}
