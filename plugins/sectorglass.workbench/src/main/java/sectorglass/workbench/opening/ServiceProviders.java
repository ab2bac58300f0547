package sectorglass.workbench.opening;

import java.util.ArrayList;
import java.util.List;

import org.osgi.framework.BundleContext;
import org.osgi.framework.InvalidSyntaxException;
import org.osgi.framework.ServiceReference;
import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;

import sectorglass.image.Providers;

/** Lets {@link Providers} find formats, maps, volumes and rules in the service registry. The only component of the workbench. */
@Component(service = ServiceProviders.class, immediate = true)
public final class ServiceProviders {

    /** Called by the component runtime. */
    @Activate
    public ServiceProviders(BundleContext context) {
        Providers.source(type -> services(context, type));
    }

    private static List<?> services(BundleContext context, Class<?> type) {
        try {
            ServiceReference<?>[] references = context.getAllServiceReferences(type.getName(), null);
            List<Object> found = new ArrayList<>();
            if (references != null) {
                for (ServiceReference<?> reference : references) {
                    Object service = context.getService(reference);
                    if (service != null) {
                        found.add(service);
                    }
                }
            }
            return found;
        } catch (InvalidSyntaxException e) {
            throw new IllegalStateException(e); // there is no filter
        }
    }
}
