package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Everything a file's records hold, gathered for one file: header, times, names and streams, over the base record and the extension
 * records that its attribute list names. For views of single files; scans use {@link RecordView}.
 */
final class FileRecord {
    private static final int MOST_STREAMS = 100_000;

    final long number;
    final int sequence;
    final int flags;
    final int links;
    /** $STANDARD_INFORMATION's value, or null where it was not found. */
    byte[] standard;
    final List<NameValue> names = new ArrayList<>();
    final Map<String, FileStream> streams = new LinkedHashMap<>();
    /** Whether some part of the file's records could not be read or used, so that streams or names may be missing. */
    boolean incomplete;
    /** Whether the update sequence of one of its records does not fit. */
    boolean torn;

    private FileRecord(RecordView view) {
        number = view.number;
        sequence = view.sequence();
        flags = view.u16(RecordView.FLAGS);
        links = view.u16(RecordView.LINKS);
    }

    /**
     * Reads a file.
     *
     * @return null where the record cannot be used or is not a base record
     */
    static FileRecord of(FileTable table, long number) {
        RecordView view = new RecordView();
        if (!table.load(number, view) || !view.usable() || !view.isBase()) {
            return null;
        }
        FileRecord file = new FileRecord(view);
        Set<Long> extensions = file.take(table, view);
        for (Long extension : extensions) {
            RecordView other = new RecordView();
            if (table.load(extension, other) && other.usable() && other.baseNumber() == number
                    && (other.baseSequence() == file.sequence || !file.inUse())) {
                file.take(table, other);
            } else {
                file.incomplete = true;
            }
        }
        file.streams.values().forEach(file::close);
        return file;
    }

    boolean inUse() {
        return (flags & RecordView.IN_USE) != 0;
    }

    boolean directory() {
        return (flags & RecordView.DIRECTORY) != 0;
    }

    Optional<FileStream> stream(int type, String name) {
        return Optional.ofNullable(streams.get(key(type, name)));
    }

    List<FileStream> all() {
        return List.copyOf(streams.values());
    }

    private static String key(int type, String name) {
        return type + ":" + name;
    }

    /** Takes the attributes of one record; gives the numbers of other records that its attribute list names. */
    private Set<Long> take(FileTable table, RecordView view) {
        Set<Long> others = new LinkedHashSet<>();
        torn |= view.fix() == FixedBlock.Fix.TORN;
        view.rewind();
        while (view.nextAttribute()) {
            switch (view.type()) {
                case AttributeType.STANDARD_INFORMATION -> standard = standard == null ? value(view) : standard;
                case AttributeType.FILE_NAME -> {
                    NameValue name = NameValue.of(view);
                    if (name != null) {
                        names.add(name);
                    }
                }
                case AttributeType.ATTRIBUTE_LIST -> AttributeList.of(table.image(), table.geometry(), view).stream()
                        .map(AttributeList.Entry::record).filter(n -> n != number).forEach(others::add);
                default -> {
                    if (streams.size() < MOST_STREAMS) {
                        piece(table, view);
                    }
                }
            }
        }
        incomplete |= view.end() != RecordView.End.MARK;
        return others;
    }

    private static byte[] value(RecordView view) {
        int at = view.resident() ? view.valueOffset() : -1;
        if (at < 0 || !view.has(at, view.valueLength())) {
            return null;
        }
        return Arrays.copyOfRange(view.bytes, view.start + at, view.start + at + view.valueLength());
    }

    private void piece(FileTable table, RecordView view) {
        String name = view.attributeName();
        FileStream stream = streams.computeIfAbsent(key(view.type(), name), k -> new FileStream(view.type(), name));
        boolean first = view.resident() || view.lowestVcn() == 0;
        if (first && !stream.sized) {
            stream.flags = view.attributeFlags();
            stream.id = view.attributeId();
            stream.record = view.number;
            stream.headerByte = table.byteAt(view.number, view.attribute);
        }
        if (view.resident()) {
            resident(table, view, stream);
        } else if (view.has(view.attribute, 0x40)) {
            if (first) {
                stream.sized = true;
                stream.unit = view.compressionUnit();
                stream.allocated = Math.max(0, view.allocatedSize());
                stream.real = Math.max(0, view.realSize());
                stream.initialised = Math.max(0, Math.min(view.initialisedSize(), stream.real));
            }
            stream.runs.add(view, view.runsOffset(), view.next, Math.max(0, view.lowestVcn()));
        } else {
            stream.incomplete = true;
        }
    }

    private void resident(FileTable table, RecordView view, FileStream stream) {
        stream.resident = true;
        stream.sized = true;
        int at = view.valueOffset();
        int length = at < 0 ? 0 : view.valueLength();
        stream.incomplete |= at < 0;
        stream.value = new byte[length];
        if (length == 0) {
            return;
        }
        System.arraycopy(view.bytes, view.start + at, stream.value, 0, length);
        stream.valueByte = table.byteAt(view.number, at);
        if (!view.has(at, length)) {
            stream.valueRead = new boolean[length];
            for (int i = 0; i < length; i++) {
                stream.valueRead[i] = view.has(at + i, 1);
            }
        }
    }

    private void close(FileStream stream) {
        stream.runs.sort();
        if (stream.resident) {
            return;
        }
        long vcn = 0;
        for (int i = 0; i < stream.runs.runs(); i++) {
            stream.incomplete |= stream.runs.vcn(i) > vcn;
            vcn = Math.max(vcn, stream.runs.vcn(i) + stream.runs.count(i));
        }
        stream.incomplete |= !stream.sized || stream.runs.problem() != RunList.Problem.NONE;
    }
}
