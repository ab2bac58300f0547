package sectorglass.ksycheck;

import java.lang.reflect.Constructor;
import java.lang.reflect.Field;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

import io.kaitai.struct.ByteBufferKaitaiStream;
import io.kaitai.struct.KaitaiStream;
import io.kaitai.struct.KaitaiStruct;

/** An object of a generated class and what it recorded. */
final class GeneratedObject {
    private static final Map<String, Method> GETTERS = new ConcurrentHashMap<>();
    private static final Map<Class<?>, Map<String, Field>> MAPS = new ConcurrentHashMap<>();

    private final Object object;

    GeneratedObject(Object object) {
        this.object = object;
    }

    /** An object over bytes, not read yet. */
    static GeneratedObject over(Class<?> type, byte[] bytes, List<Object> params) throws ReflectiveOperationException {
        KaitaiStream io = new ByteBufferKaitaiStream(bytes);
        for (Constructor<?> constructor : type.getConstructors()) {
            Class<?>[] types = constructor.getParameterTypes();
            if (types[0] == KaitaiStream.class && types.length == params.size() + 1) {
                Object[] arguments = new Object[types.length];
                arguments[0] = io;
                for (int i = 0; i < params.size(); i++) {
                    arguments[i + 1] = fit(params.get(i), types[i + 1]);
                }
                return new GeneratedObject(constructor.newInstance(arguments));
            }
        }
        throw new NoSuchMethodException("no constructor of " + type + " with " + params.size() + " parameters");
    }

    private static Object fit(Object value, Class<?> type) {
        return value instanceof Number number ? type == int.class ? (Object) number.intValue() : type == long.class
                ? (Object) number.longValue() : value : value;
    }

    /** Reads; null, or what stopped it. */
    Throwable read() throws ReflectiveOperationException {
        try {
            object.getClass().getMethod("_read").invoke(object);
            return null;
        } catch (InvocationTargetException e) {
            return e.getCause();
        }
    }

    /** The value of a field or instance; throws what the getter threw. */
    Object get(String id) throws Throwable {
        try {
            return getter(id).invoke(object);
        } catch (InvocationTargetException e) {
            throw e.getCause();
        }
    }

    private Method getter(String id) throws NoSuchMethodException {
        String key = object.getClass().getName() + "." + id;
        Method known = GETTERS.get(key);
        if (known == null || known.getDeclaringClass() != object.getClass()) {
            known = object.getClass().getMethod(Names.camel(id));
            GETTERS.put(key, known);
        }
        return known;
    }

    /** A public map of the object by field; empty where its class has none. */
    private Map<?, ?> recorded(String map) throws ReflectiveOperationException {
        Map<String, Field> maps = MAPS.computeIfAbsent(object.getClass(), type -> {
            Map<String, Field> found = new HashMap<>();
            for (Field field : type.getFields()) {
                found.put(field.getName(), field);
            }
            return found;
        });
        Field field = maps.get(map);
        return field == null ? Map.of() : (Map<?, ?>) field.get(object);
    }

    private Integer position(String map, String id) throws ReflectiveOperationException {
        return (Integer) recorded(map).get(Names.camel(id));
    }

    /** Start of a field in its stream, or null where reading did not come to it. */
    Integer start(String id) throws ReflectiveOperationException {
        return position("_attrStart", id);
    }

    /** End of a field in its stream, or null where its reading did not end. */
    Integer end(String id) throws ReflectiveOperationException {
        return position("_attrEnd", id);
    }

    /** Starts or ends of the elements of an array. */
    List<?> positions(String id, boolean ends) throws ReflectiveOperationException {
        Object found = recorded(ends ? "_arrEnd" : "_arrStart").get(Names.camel(id));
        return found == null ? List.of() : (List<?>) found;
    }

    KaitaiStream io() {
        return ((KaitaiStruct) object)._io();
    }
}
