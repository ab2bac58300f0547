package sectorglass.testvolumes;

import java.util.ArrayList;
import java.util.List;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.FormatFolder;
import sectorglass.decode.SpecException;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;

/** Decodes the structures of a volume by their specs. */
public final class Specs {
    private static final FormatCatalogue CATALOGUE = new FormatCatalogue(Providers.all(FormatFolder.class));

    private Specs() {
    }

    /** Number of structures decoded; adds what is not in order to a list. */
    public static int decode(Volume volume, List<String> problems) {
        int count = 0;
        for (Structure structure : volume.structures()) {
            count += decode(volume.site().image(), structure, problems);
        }
        return count;
    }

    /** Decodes one structure; adds what is not in order to a list. @return 1, or 0 where its spec is in error */
    public static int decode(SectorImage image, Structure structure, List<String> problems) {
        try {
            collect(structure.name(), decode(image, structure), problems);
            return 1;
        } catch (IllegalStateException e) {
            problems.add(structure.format() + ": " + e.getCause());
            return 0;
        }
    }

    /** Decodes one structure. */
    public static FieldNode decode(SectorImage image, Structure structure) {
        try {
            return Decoder.decode(CATALOGUE.load(structure.format()), structure.reader().read(image),
                    DecodeOptions.DEFAULT.withParams(structure.params()));
        } catch (SpecException e) {
            throw new IllegalStateException(structure.format(), e);
        }
    }

    /** Label and value of all fields of these structures, one a line; adds what is not in order to a list. */
    public static String text(SectorImage image, List<Structure> structures, List<String> problems) {
        StringBuilder text = new StringBuilder();
        for (Structure structure : structures) {
            FieldNode root = decode(image, structure);
            collect(structure.name(), root, problems);
            text.append(structure.format()).append('\n');
            lines(root, text);
        }
        return text.toString();
    }

    private static void lines(FieldNode node, StringBuilder text) {
        if (node.children().isEmpty()) {
            text.append(node.label()).append(' ').append(node.value()).append('\n');
        }
        node.children().forEach(child -> lines(child, text));
    }

    private static void collect(String name, FieldNode node, List<String> problems) {
        if (node.state() != FieldNode.State.OK && node.children().isEmpty()) {
            problems.add(name + ": " + node.path() + " " + node.state() + " " + node.problem());
        }
        new ArrayList<>(node.children()).forEach(child -> collect(name, child, problems));
    }
}
