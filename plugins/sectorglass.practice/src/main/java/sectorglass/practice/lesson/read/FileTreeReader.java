package sectorglass.practice.lesson.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.make.ContentKind;
import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.Node;
import sectorglass.make.Times;

/** Puts lines {@code file: folder/name | bytes | kind | deleted, 3 pieces} together as folders. */
final class FileTreeReader {
    /** A fixed moment: disks are the same whenever they are made. */
    private static final Times TIMES = Times.at("2025-03-01T10:00:00Z");
    private static final long MOST_BYTES = 16 << 20;

    private static final class Tree {
        private final Map<String, Tree> folders = new LinkedHashMap<>();
        private final List<Node> files = new ArrayList<>();

        private Folder folder(String name) {
            List<Node> all = new ArrayList<>(files);
            folders.forEach((child, tree) -> all.add(tree.folder(child)));
            return new Folder(name, TIMES, 0, all);
        }
    }

    private final Block block;
    private final Tree root = new Tree();

    FileTreeReader(Block block) {
        this.block = block;
        root.files.add(DataFile.of("READ ME - all invented.txt", 700, ContentKind.NOTICE, TIMES));
    }

    /** Adds a line. */
    void add(KeyLine line) {
        String[] parts = line.value().split("\\|", -1);
        String[] path = parts[0].strip().split("/");
        if (parts.length < 3 || path.length > 8) {
            block.problem(line.line(), "A file is written \"path | bytes | kind\", for instance \"Letters/offer.txt | 6000 | text\".");
            return;
        }
        Tree tree = root;
        for (int i = 0; i < path.length - 1; i++) {
            tree = tree.folders.computeIfAbsent(path[i], name -> new Tree());
        }
        try {
            long bytes = Long.parseLong(parts[1].strip());
            ContentKind kind = ContentKind.valueOf(parts[2].strip().toUpperCase(Locale.ROOT));
            if (bytes > MOST_BYTES) {
                throw new IllegalArgumentException("more than " + MOST_BYTES + " bytes");
            }
            DataFile file = DataFile.of(path[path.length - 1], bytes, kind, TIMES);
            for (String flag : parts.length > 3 ? parts[3].split(",") : new String[0]) {
                String word = flag.strip();
                if (word.equals("deleted")) {
                    file = file.asDeleted();
                } else if (word.matches("[0-9]{1,3} pieces")) {
                    file = file.inPieces(Integer.parseInt(word.substring(0, word.indexOf(' '))));
                } else {
                    throw new IllegalArgumentException("\"" + word + "\" is neither \"deleted\" nor \"N pieces\"");
                }
            }
            tree.files.add(file);
        } catch (IllegalArgumentException e) {
            block.problem(line.line(), "The file cannot be made: " + e.getMessage() + ".");
        }
    }

    /** All of them. */
    Folder root() {
        return root.folder("");
    }
}
