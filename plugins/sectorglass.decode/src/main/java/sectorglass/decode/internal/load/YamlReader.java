package sectorglass.decode.internal.load;

import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.composer.Composer;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.AliasEvent;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.parser.ParserImpl;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.resolver.Resolver;

/** Reads YAML as a tree of nodes with marks. Aliases are refused: they can make a small file grow without bound. */
final class YamlReader {
    private static final int MOST_CHARACTERS = 2 << 20;

    private YamlReader() {
    }

    /** The events of a text; an alias among them is an error. */
    private static final class NoAliases extends ParserImpl {
        NoAliases(String text, LoaderOptions options) {
            super(new StreamReader(text), options);
        }

        @Override
        public Event peekEvent() {
            Event next = super.peekEvent();
            if (next instanceof AliasEvent) {
                throw new Alias(next.getStartMark());
            }
            return next;
        }
    }

    private static final class Alias extends MarkedYAMLException {
        private static final long serialVersionUID = 1L;

        Alias(Mark at) {
            super(null, null, "a YAML alias (*name) is not allowed in a spec: write the part out", at);
        }
    }

    /** The root of a text: no more of the library than its parser and composer, since a short command pays for every class it loads. */
    private static Node compose(String text) {
        LoaderOptions options = new LoaderOptions();
        options.setCodePointLimit(MOST_CHARACTERS);
        options.setNestingDepthLimit(60);
        return new Composer(new NoAliases(text, options), new Resolver(), options).getSingleNode();
    }

    /** The mapping of a file, or null with a problem. */
    static YamlMap read(String file, String text, Problems problems) {
        if (text.length() > MOST_CHARACTERS) {
            problems.add(file, null, "the file is larger than 2 MiB");
            return null;
        }
        try {
            Node root = compose(text);
            if (root instanceof MappingNode mapping) {
                return new YamlMap(file, problems, mapping);
            }
            problems.add(file, root, "a spec must be a mapping with the keys meta, seq, types …");
        } catch (Alias e) {
            problems.add(file, e.getProblemMark(), 0, e.getProblem());
        } catch (MarkedYAMLException e) {
            problems.add(file, e.getProblemMark(), 0, "this is not YAML: " + e.getProblem());
        } catch (YAMLException e) {
            problems.add(file, null, "this is not YAML: " + String.valueOf(e.getMessage()).lines().findFirst().orElse(""));
        }
        return null;
    }
}
