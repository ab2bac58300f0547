package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.ValueType.Kind;
import sectorglass.decode.internal.text.Presentation;

/** A field of a type as the spec defines it: what its nodes share. Filled by the loader, not changed afterwards. */
public final class FieldSpec {
    /** Where the field is defined. */
    public enum Place { SEQ, INSTANCE, PARAM, CASE, ROOT }

    private final TypeSpec owner;
    private final String id;
    private final Place place;
    private final int slot;
    private String label;
    private String doc;
    private String docRef;
    private Presentation presentation = Presentation.PLAIN;
    private ValueType type = ValueType.ANY;
    private boolean repeated;
    private Step step;
    private Check check;
    private Charsets charset;
    private boolean little;

    /** @param slot index among the fields and instances of the owner, or among its parameters */
    public FieldSpec(TypeSpec owner, String id, Place place, int slot) {
        this.owner = owner;
        this.id = id;
        this.place = place;
        this.slot = slot;
    }

    /** The type it belongs to. */
    public TypeSpec owner() {
        return owner;
    }

    /** Its id. */
    public String id() {
        return id;
    }

    /** Where it is defined. */
    public Place place() {
        return place;
    }

    /** Index among the fields and instances of its type, or among its parameters. */
    public int slot() {
        return slot;
    }

    /** Name for people. */
    public String label() {
        return label == null ? id : label;
    }

    /** {@code doc}, or null. */
    public String doc() {
        return doc;
    }

    /** {@code doc-ref} of the field or of its type, or null. */
    public String docRef() {
        return docRef == null ? owner.docRef() : docRef;
    }

    /** Sets the texts. */
    public void texts(String newLabel, String newDoc, String newDocRef) {
        label = newLabel;
        doc = newDoc;
        docRef = newDocRef;
    }

    /** How values are shown. */
    public Presentation presentation() {
        return presentation;
    }

    /** Sets how values are shown. */
    public void presentation(Presentation newPresentation) {
        presentation = newPresentation;
    }

    /** Type of one value; of an element where it is repeated. */
    public ValueType type() {
        return type;
    }

    /** Type of the field as expressions see it. */
    public ValueType wholeType() {
        return repeated ? ValueType.array(type) : type;
    }

    /** Whether it is an array. */
    public boolean repeated() {
        return repeated;
    }

    /** Sets the type. */
    public void type(ValueType newType, boolean newRepeated) {
        type = newType;
        repeated = newRepeated;
    }

    /** How it is read. */
    public Step step() {
        return step;
    }

    /** Sets how it is read. */
    public void step(Step newStep) {
        step = newStep;
    }

    /** What {@code valid} or {@code contents} asks for, or null. */
    public Check check() {
        return check;
    }

    /** Sets what {@code valid} or {@code contents} asks for. */
    public void check(Check newCheck) {
        check = newCheck;
    }

    /** How its bytes become text; null for other types. */
    Charsets charset() {
        return charset;
    }

    /** Sets how its bytes become text. */
    public void charset(Charsets newCharset) {
        charset = newCharset;
    }

    /** Whether its bit field fills from the least significant bit. */
    public boolean little() {
        return little;
    }

    /** Sets whether its bit field fills from the least significant bit. */
    public void little(boolean newLittle) {
        little = newLittle;
    }

    /** A variant of it with its own type, for a case of {@code switch-on}. */
    public FieldSpec variant() {
        FieldSpec copy = new FieldSpec(owner, id, Place.CASE, slot);
        copy.label = label;
        copy.doc = doc;
        copy.docRef = docRef;
        copy.presentation = presentation;
        copy.check = check;
        return copy;
    }

    boolean is(Kind kind) {
        return type.kind() == kind;
    }

    @Override
    public String toString() {
        return owner.path() + "." + id;
    }
}
