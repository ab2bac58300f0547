package sectorglass.decode.internal.load;

import java.util.Collection;

import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

/** Sentences and small tests that the loader shares. */
final class Words {

    private Words() {
    }

    /** Adds the nearest of the words that are allowed, where one is near. */
    static String unknown(String sentence, String word, Collection<String> allowed) {
        String best = null;
        int least = 3;
        for (String candidate : allowed) {
            int distance = distance(word, candidate);
            if (distance < least && distance < candidate.length()) {
                least = distance;
                best = candidate;
            }
        }
        return best == null ? sentence : sentence + "; is '" + best + "' meant?";
    }

    private static int distance(String a, String b) {
        if (Math.abs(a.length() - b.length()) > 2 || a.length() > 60) {
            return 9;
        }
        int[] last = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            last[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = last[0];
            last[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int above = last[j];
                int changed = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                last[j] = Math.min(changed, Math.min(above, last[j - 1]) + 1);
                diagonal = above;
            }
        }
        return last[b.length()];
    }

    static boolean isId(String id) {
        return id.matches("[a-z][a-z0-9_]*");
    }

    static boolean empty(Node node) {
        return node instanceof ScalarNode scalar && (scalar.getValue().isEmpty() || scalar.getValue().equals("null")
                || scalar.getValue().equals("~"));
    }
}
