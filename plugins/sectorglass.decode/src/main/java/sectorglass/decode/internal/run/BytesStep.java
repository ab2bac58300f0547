package sectorglass.decode.internal.run;

import java.util.Arrays;

/** Reads bytes and text. */
public final class BytesStep extends Step {
    private final FieldSpec spec;
    private final Extent extent;
    private final Process process;

    /** @param process applied to the value, or null */
    public BytesStep(FieldSpec spec, Extent extent, Process process) {
        this.spec = spec;
        this.extent = extent;
        this.process = process;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        extent.measure(run, self, io);
        Measure m = run.measure;
        ValueNode node = run.value(self, parent, spec, index, io, m.offset);
        node.length = m.length;
        node.trouble = m.trouble;
        if (!m.present) {
            return node;
        }
        node.setRange(m.from, m.to - m.from);
        if (process != null) {
            try {
                node.setObject(process.apply(self, Arrays.copyOfRange(io.data, m.from, m.to)));
            } catch (Undecided e) {
                node.clear(node.trouble == null ? e.trouble() : node.trouble); // what is cut off cannot be processed
            }
        }
        if (spec.charset() != null && !spec.charset().known()) {
            node.clear(node.trouble == null ? new Trouble(Trouble.Cause.ENCODING, spec.charset().name()) : node.trouble);
        }
        if (node.trouble == null && spec.check() != null) {
            run.check(self, node);
        }
        return node;
    }
}
