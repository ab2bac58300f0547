package sectorglass.decode.internal.run;

import java.util.Map;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.internal.run.Trouble.Cause;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/** One decoding: limits, what the expressions see beside the structure, and where the reader has lost its place. */
public final class Run {
    private final int maxNodes;
    private final int maxDepth;
    private final Progress progress;
    private int nodes;
    private int depth;
    private long made;
    /** Why the place of the next field is not known, or null. */
    Trouble lost;
    /** Why decoding ended, or null. */
    Trouble stopped;
    /** Times that bytes were wanted beyond an end. */
    int clips;
    /** {@code _index}. */
    int index;
    /** {@code _}. */
    Node item;
    /** What {@link Extent#measure} found. */
    final Measure measure = new Measure();

    private Run(DecodeOptions options) {
        maxNodes = options.maxNodes();
        maxDepth = Math.min(options.maxDepth(), Limits.DEPTH);
        progress = options.progress();
    }

    /** Decodes a window by a type. */
    public static StructNode decode(FieldSpec rootField, TypeSpec type, Window window, DecodeOptions options) {
        Run run = new Run(options);
        byte[] data = window.raw(0, window.length());
        Source source = new Source(run, data, window, window.isRead(0, data.length), null);
        WindowStream io = new WindowStream(source, 0, data.length);
        StructNode root = new StructNode(null, rootField, -1, 0, type, io, io, null, null);
        root.arguments = run.arguments(type, options.params());
        try {
            run.order(root, null);
            run.sequence(root);
            root.length = io.index();
            run.force(root);
        } catch (StackOverflowError e) {
            run.stopped = new Trouble(Cause.DEPTH, String.valueOf(run.maxDepth));
        } catch (Undecided e) {
            root.trouble = e.trouble();
        }
        if (run.stopped != null && root.trouble == null) {
            root.trouble = run.stopped;
        }
        return root;
    }

    private Object[] arguments(TypeSpec type, Map<String, Object> given) {
        FieldSpec[] params = type.params();
        Object[] values = new Object[params.length];
        for (int i = 0; i < params.length; i++) {
            Object value = given.get(params[i].id());
            values[i] = value == null ? new Trouble(Cause.NO_PARAM, params[i].id())
                    : value instanceof Integer || value instanceof Short || value instanceof Byte ? (Object) ((Number) value).longValue()
                    : value instanceof Float real ? (Object) real.doubleValue() : value;
        }
        return values;
    }

    /** Counts a node; whether decoding goes on. */
    boolean count() {
        if (++nodes > maxNodes) {
            stopped = new Trouble(Cause.NODES, String.valueOf(maxNodes));
        } else if ((nodes & 0xFFF) == 0 && progress.cancelled()) {
            stopped = new Trouble(Cause.STOPPED);
        }
        return stopped == null;
    }

    /** Takes bytes from what may be made. */
    void made(long bytes) {
        made += bytes;
        if (made > Limits.MADE_BYTES || bytes < 0) {
            made = Limits.MADE_BYTES;
            throw Undecided.of(Cause.BYTES, String.valueOf(Limits.MADE_BYTES >> 20));
        }
    }

    /** Bytes that may still be made. */
    long mayMake() {
        return Limits.MADE_BYTES - made;
    }

    /** A node for a value in a stream. */
    ValueNode value(StructNode self, Node parent, FieldSpec spec, int at, WindowStream io, int offset) {
        count();
        return io == self.io || parent.content().source == io.source ? new ValueNode(parent, spec, at, offset)
                : new ForeignNode(parent, spec, at, offset, io);
    }

    /** Marks a node that reaches beyond the end of its stream, and goes to the end. */
    void clip(Node node, WindowStream io, long wanted) {
        int there = Math.max(0, io.end - io.at);
        node.length = there;
        node.trouble = new Trouble(Cause.END, String.valueOf(wanted), String.valueOf(there));
        io.at = io.end;
        io.bit = 0;
        clips++;
    }

    /** Asks {@code valid} and {@code contents} of a value. */
    void check(StructNode self, ValueNode node) {
        Node before = item;
        item = node;
        try {
            Trouble found = node.spec.check().test(self, node);
            if (found != null) {
                node.trouble = found;
            }
        } catch (Undecided e) {
            // the rule cannot be decided here: neither kept nor broken
        } finally {
            item = before;
        }
    }

    /** Decides the byte order of a structure. */
    void order(StructNode node, StructNode creator) {
        switch (node.type.order()) {
            case LITTLE -> {
                node.little = true;
                node.ordered = true;
            }
            case BIG -> node.ordered = true;
            case INHERIT -> {
                node.little = creator != null && creator.little;
                node.ordered = creator != null && creator.ordered;
            }
            case SWITCH -> {
                try {
                    Boolean little = node.type.endian().decide(node);
                    node.ordered = little != null;
                    node.little = node.ordered && little;
                } catch (Undecided e) {
                    node.trouble = e.trouble();
                }
            }
            case NONE -> node.ordered = false;
        }
    }

    /** Reads the fields of a structure one after the other. */
    void sequence(StructNode node) {
        FieldSpec[] seq = node.type.seq();
        boolean[] aligned = node.type.aligned();
        Node[] slots = node.slots;
        WindowStream io = node.io;
        depth++;
        for (int i = 0; i < seq.length; i++) {
            if (stopped != null) {
                break;
            }
            if (lost != null) {
                lostFields(node, i);
                break;
            }
            if (aligned[i]) {
                io.align();
            }
            slots[i] = seq[i].step().read(this, node, node, io, -1);
        }
        depth--;
    }

    private void lostFields(StructNode node, int from) {
        FieldSpec[] seq = node.type.seq();
        for (int i = from; i < seq.length; i++) {
            ValueNode unknown = value(node, node, seq[i], -1, node.io, node.io.index());
            unknown.trouble = lost;
            node.slots[i] = unknown;
        }
    }

    /** Whether a structure would lie too deep. */
    boolean tooDeep() {
        return depth >= maxDepth;
    }

    Trouble depthTrouble() {
        return new Trouble(Cause.DEPTH, String.valueOf(maxDepth));
    }

    /** Computes an instance. */
    Node instance(StructNode self, FieldSpec field) {
        Trouble lostBefore = lost;
        Node itemBefore = item;
        int indexBefore = index;
        self.slots[field.slot()] = StructNode.BUSY;
        Node node;
        depth++;
        try {
            if (depth > maxDepth || stopped != null) {
                node = failed(self, field, stopped != null ? stopped : depthTrouble());
            } else {
                node = field.step().read(this, self, self, self.io, -1);
            }
        } catch (Undecided e) {
            node = failed(self, field, e.trouble());
        } finally {
            depth--;
            lost = lostBefore;
            item = itemBefore;
            index = indexBefore;
        }
        self.slots[field.slot()] = node == null ? StructNode.ABSENT : node;
        return self.slots[field.slot()];
    }

    private ValueNode failed(StructNode self, FieldSpec field, Trouble trouble) {
        ValueNode node = new ValueNode(self, field, -1, startOf(self));
        node.trouble = trouble;
        return node;
    }

    /** Offset of a structure in the data of its own stream. */
    static int startOf(StructNode self) {
        return self.io.source == self.place.source ? self.offset : self.io.start;
    }

    /** Computes all instances below a structure. */
    void force(StructNode node) {
        if (!node.type.forces() || depth >= maxDepth) {
            return;
        }
        depth++;
        int fields = node.type.seq().length;
        for (int i = 0; i < fields; i++) {
            forceNode(node.slots[i]);
        }
        for (FieldSpec field : node.type.instances()) {
            if (stopped != null) {
                break;
            }
            boolean computed = node.slots[field.slot()] != null;
            Node made = computed ? node.slots[field.slot()] : instance(node, field);
            forceNode(made);
        }
        depth--;
    }

    private void forceNode(Node node) {
        if (node instanceof StructNode struct) {
            force(struct);
        } else if (node instanceof ArrayNode array && mayHoldStructs(array)) {
            for (int i = 0; i < array.size(); i++) {
                forceNode(array.get(i));
            }
        }
    }

    private static boolean mayHoldStructs(ArrayNode node) {
        ValueType type = node.spec.type();
        return type.struct() != null ? type.struct().forces() : type.is(ValueType.Kind.STRUCT) || type.is(ValueType.Kind.ANY);
    }
}
