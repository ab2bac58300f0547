package sectorglass.decode.internal.load;

import java.math.BigInteger;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/** A mapping of a spec, with the place of every part. Wrong shapes are reported and answered with null. */
final class YamlMap {
    private final String file;
    private final Problems problems;
    private final MappingNode node;
    private final Map<String, NodeTuple> entries = new LinkedHashMap<>();

    YamlMap(String file, Problems problems, MappingNode node) {
        this.file = file;
        this.problems = problems;
        this.node = node;
        for (NodeTuple tuple : node.getValue()) {
            if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
                problems.add(file, tuple.getKeyNode(), "a key must be a single word");
            } else if (entries.putIfAbsent(key.getValue(), tuple) != null) {
                problems.add(file, key, "the key '" + key.getValue() + "' is given twice");
            }
        }
    }

    Node node() {
        return node;
    }

    String file() {
        return file;
    }

    Problems problems() {
        return problems;
    }

    Set<String> keys() {
        return entries.keySet();
    }

    boolean has(String key) {
        return entries.containsKey(key);
    }

    Node keyNode(String key) {
        return entries.get(key).getKeyNode();
    }

    Node get(String key) {
        NodeTuple tuple = entries.get(key);
        return tuple == null ? null : tuple.getValueNode();
    }

    void problem(Node at, String sentence) {
        problems.add(file, at, sentence);
    }

    /** Reports keys that do not belong here; keys that begin with a dash belong everywhere. */
    void allow(Set<String> allowed, String what) {
        for (String key : entries.keySet()) {
            if (!key.startsWith("-") && !allowed.contains(key)) {
                problem(keyNode(key), Words.unknown("the key '" + key + "' does not belong to " + what, key, allowed));
            }
        }
    }

    ScalarNode scalar(String key) {
        Node value = get(key);
        if (value == null || value instanceof ScalarNode) {
            return (ScalarNode) value;
        }
        problem(value, "'" + key + "' must be a single value");
        return null;
    }

    String text(String key) {
        ScalarNode value = scalar(key);
        return value == null ? null : value.getValue().strip();
    }

    /** A text, or the texts of a list joined by "; ". */
    String texts(String key) {
        Node value = get(key);
        if (value instanceof SequenceNode list) {
            StringBuilder all = new StringBuilder();
            for (Node item : list.getValue()) {
                if (item instanceof ScalarNode text) {
                    all.append(all.isEmpty() ? "" : "; ").append(text.getValue().strip());
                } else {
                    problem(item, "'" + key + "' must hold texts");
                }
            }
            return all.toString();
        }
        return text(key);
    }

    boolean flag(String key, boolean otherwise) {
        ScalarNode value = scalar(key);
        if (value == null) {
            return otherwise;
        }
        switch (value.getValue()) {
            case "true", "yes", "True":
                return true;
            case "false", "no", "False":
                return false;
            default:
                problem(value, "'" + key + "' must be true or false");
                return otherwise;
        }
    }

    Integer octet(String key) {
        ScalarNode value = scalar(key);
        if (value == null) {
            return null;
        }
        Long number = number(value.getValue());
        if (number == null || number < 0 || number > 255) {
            problem(value, "'" + key + "' must be a number from 0 to 255");
            return null;
        }
        return number.intValue();
    }

    YamlMap map(String key) {
        Node value = get(key);
        if (value == null || Words.empty(value)) {
            return null;
        }
        if (value instanceof MappingNode mapping) {
            return new YamlMap(file, problems, mapping);
        }
        problem(value, "'" + key + "' must be a mapping");
        return null;
    }

    List<Node> list(String key) {
        Node value = get(key);
        if (value == null || Words.empty(value)) {
            return List.of();
        }
        if (value instanceof SequenceNode sequence) {
            return sequence.getValue();
        }
        problem(value, "'" + key + "' must be a list");
        return List.of();
    }

    /** A whole number as YAML and the language write it, as its bits, or null. */
    static Long number(String text) {
        String plain = text.strip().replace("_", "");
        boolean negative = plain.startsWith("-");
        String digits = negative || plain.startsWith("+") ? plain.substring(1) : plain;
        String lower = digits.toLowerCase(java.util.Locale.ROOT);
        int radix = lower.startsWith("0x") ? 16 : lower.startsWith("0b") ? 2 : lower.startsWith("0o") ? 8 : 10;
        String body = radix == 10 ? digits : digits.substring(2);
        if (!body.matches("[0-9A-Fa-f]+")) {
            return null;
        }
        try {
            BigInteger value = new BigInteger(negative ? "-" + body : body, radix);
            return value.bitLength() > 64 || negative && value.bitLength() > 63 ? null : value.longValue();
        } catch (NumberFormatException e) {
            return null;
        }
    }
}
