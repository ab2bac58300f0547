package sectorglass.decode.internal.run;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

import sectorglass.decode.internal.text.EnumTable;

/** A structure type of a spec. Filled by the loader, not changed afterwards. */
public final class TypeSpec {
    /** Byte orders that a type reads in. */
    public enum Order { LITTLE, BIG, SWITCH, INHERIT, NONE }

    private final String name;
    private final String file;
    private final TypeSpec outer;
    private final Map<String, TypeSpec> types = new LinkedHashMap<>();
    private final Map<String, EnumTable> enums = new LinkedHashMap<>();
    private final Map<String, FieldSpec> members = new HashMap<>();
    private final Set<TypeSpec> users = new LinkedHashSet<>();
    private boolean usersUnknown;
    private String title;
    private String doc;
    private String docRef;
    private String encoding;
    private Order order = Order.NONE;
    private Endian endian;
    private boolean littleBits;
    private FieldSpec[] seq = new FieldSpec[0];
    private FieldSpec[] instances = new FieldSpec[0];
    private FieldSpec[] params = new FieldSpec[0];
    private boolean[] aligned = new boolean[0];
    private boolean forces;
    private Expr toText;

    /** A type in a file, in another type or (null) at the top. */
    public TypeSpec(String name, String file, TypeSpec outer) {
        this.name = name;
        this.file = file;
        this.outer = outer;
    }

    /** Its id. */
    public String name() {
        return name;
    }

    /** The file it stands in. */
    public String file() {
        return file;
    }

    /** The type it lies in, or null. */
    public TypeSpec outer() {
        return outer;
    }

    /** The outermost type. */
    public TypeSpec top() {
        return outer == null ? this : outer.top();
    }

    /** Name with the types it lies in. */
    public String path() {
        return outer == null ? name : outer.path() + "::" + name;
    }

    /** Types defined in it. */
    public Map<String, TypeSpec> types() {
        return types;
    }

    /** Enumerations defined in it. */
    public Map<String, EnumTable> enums() {
        return enums;
    }

    /** Fields, instances and parameters by id. */
    public Map<String, FieldSpec> members() {
        return members;
    }

    /** Types whose fields are of this type. */
    public Set<TypeSpec> users() {
        return users;
    }

    /** Whether a field names its parent by an expression, so that {@link #users} is not all. */
    public boolean usersUnknown() {
        return usersUnknown;
    }

    /** Sets that the users are not all known. */
    public void usersUnknown(boolean unknown) {
        usersUnknown = unknown;
    }

    /** {@code meta/title}, or null. */
    public String title() {
        return title;
    }

    /** {@code doc}, or null. */
    public String doc() {
        return doc;
    }

    /** {@code doc-ref}, or null: that of the outer type then holds. */
    public String docRef() {
        return docRef == null && outer != null ? outer.docRef() : docRef;
    }

    /** Sets the texts. */
    public void texts(String newTitle, String newDoc, String newDocRef) {
        title = newTitle;
        doc = newDoc;
        docRef = newDocRef;
    }

    /** Default encoding of text, or null. */
    public String encoding() {
        return encoding == null && outer != null ? outer.encoding() : encoding;
    }

    /** Sets the default encoding. */
    public void encoding(String newEncoding) {
        encoding = newEncoding;
    }

    /** Byte order. */
    public Order order() {
        return order;
    }

    /** How a switched byte order is decided; else null. */
    public Endian endian() {
        return endian;
    }

    /** Sets the byte order. */
    public void order(Order newOrder, Endian decision) {
        order = newOrder;
        endian = decision;
    }

    /** Whether bit fields without their own order fill from the least significant bit. */
    public boolean littleBits() {
        return littleBits;
    }

    /** Sets the order of bit fields. */
    public void littleBits(boolean little) {
        littleBits = little;
    }

    /** Fields in sequence. */
    public FieldSpec[] seq() {
        return seq;
    }

    /** Instances; their slots follow those of the fields. */
    public FieldSpec[] instances() {
        return instances;
    }

    /** Parameters. */
    public FieldSpec[] params() {
        return params;
    }

    /** Sets the members. */
    public void fields(FieldSpec[] newSeq, FieldSpec[] newInstances, FieldSpec[] newParams) {
        seq = newSeq;
        instances = newInstances;
        params = newParams;
    }

    /** Per field of the sequence: whether the stream goes to a whole byte before it. */
    boolean[] aligned() {
        return aligned;
    }

    /** Sets before which fields the stream goes to a whole byte. */
    public void aligned(boolean[] newAligned) {
        aligned = newAligned;
    }

    /** Whether it or a type in it has instances. */
    public boolean forces() {
        return forces;
    }

    /** Sets whether it or a type in it has instances. */
    public void forces(boolean newForces) {
        forces = newForces;
    }

    /** {@code to-string}, or null. */
    Expr toText() {
        return toText;
    }

    /** Sets {@code to-string}. */
    public void toText(Expr newToText) {
        toText = newToText;
    }

    @Override
    public String toString() {
        return path();
    }
}
