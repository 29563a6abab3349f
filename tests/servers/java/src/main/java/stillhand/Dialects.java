package stillhand;

import ca.uhn.fhir.jpa.config.HibernatePropertiesProvider;
import ca.uhn.fhir.util.ReflectionUtil;
import org.hibernate.dialect.Dialect;
import org.springframework.orm.jpa.LocalContainerEntityManagerFactoryBean;

/** The database's dialect as application.yaml names it. */
class Dialects extends HibernatePropertiesProvider {
  private final Dialect dialect;

  Dialects(LocalContainerEntityManagerFactoryBean factory) {
    var name = (String) factory.getJpaPropertyMap().get("hibernate.dialect");
    dialect = ReflectionUtil.newInstanceOrReturnNull(name, Dialect.class);
  }

  @Override
  public Dialect getDialect() {
    return dialect;
  }
}
