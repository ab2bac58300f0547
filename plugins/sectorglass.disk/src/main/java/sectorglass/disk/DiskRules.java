package sectorglass.disk;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.verify.PropertiesRuleSet;
import sectorglass.verify.RuleSet;

/** The rules that only the whole disk can answer. */
@Component(service = RuleSet.class)
@ServiceProvider(value = RuleSet.class, resolution = Resolution.OPTIONAL)
public final class DiskRules extends PropertiesRuleSet {
}
