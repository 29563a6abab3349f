package stillhand;

import ca.uhn.fhir.batch2.jobs.config.Batch2JobsConfig;
import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.jpa.api.IDaoRegistry;
import ca.uhn.fhir.jpa.api.config.JpaStorageSettings;
import ca.uhn.fhir.jpa.api.config.ThreadPoolFactoryConfig;
import ca.uhn.fhir.jpa.api.dao.IFhirSystemDao;
import ca.uhn.fhir.jpa.batch2.JpaBatch2Config;
import ca.uhn.fhir.jpa.binstore.DatabaseBinaryContentStorageSvcImpl;
import ca.uhn.fhir.jpa.config.HibernatePropertiesProvider;
import ca.uhn.fhir.jpa.config.r4.JpaR4Config;
import ca.uhn.fhir.jpa.config.util.HapiEntityManagerFactoryUtil;
import ca.uhn.fhir.jpa.config.util.ResourceCountCacheUtil;
import ca.uhn.fhir.jpa.dao.FulltextSearchSvcImpl;
import ca.uhn.fhir.jpa.dao.IFulltextSearchSvc;
import ca.uhn.fhir.jpa.dao.search.HSearchSortHelperImpl;
import ca.uhn.fhir.jpa.dao.search.IHSearchSortHelper;
import ca.uhn.fhir.jpa.interceptor.UserRequestRetryVersionConflictsInterceptor;
import ca.uhn.fhir.jpa.model.config.PartitionSettings;
import ca.uhn.fhir.jpa.model.config.SubscriptionSettings;
import ca.uhn.fhir.jpa.provider.*;
import ca.uhn.fhir.jpa.search.*;
import ca.uhn.fhir.jpa.subscription.channel.config.SubscriptionChannelConfig;
import ca.uhn.fhir.jpa.subscription.match.config.SubscriptionProcessorConfig;
import ca.uhn.fhir.jpa.subscription.match.deliver.email.IEmailSender;
import ca.uhn.fhir.jpa.subscription.submit.config.SubscriptionSubmitterConfig;
import ca.uhn.fhir.jpa.util.ResourceCountCache;
import ca.uhn.fhir.rest.api.EncodingEnum;
import ca.uhn.fhir.rest.api.IResourceSupportedSvc;
import ca.uhn.fhir.rest.server.RestfulServer;
import ca.uhn.fhir.rest.server.provider.ResourceProviderFactory;
import ca.uhn.fhir.rest.server.util.ISearchParamRegistry;
import jakarta.persistence.EntityManagerFactory;
import javax.sql.DataSource;
import org.springframework.beans.factory.config.AutowireCapableBeanFactory;
import org.springframework.beans.factory.config.ConfigurableListableBeanFactory;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.autoconfigure.orm.jpa.JpaProperties;
import org.springframework.boot.web.servlet.ServletRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Import;
import org.springframework.context.annotation.Primary;
import org.springframework.orm.jpa.JpaTransactionManager;
import org.springframework.orm.jpa.LocalContainerEntityManagerFactoryBean;

/**
 * A HAPI FHIR R4 JPA server under /fhir, for tests alone: it listens on this machine only and keeps its database in
 * memory. Without request validation: the validator's engine checks every bundle on its own.
 */
@SpringBootApplication
@Import({
  JpaR4Config.class,
  ThreadPoolFactoryConfig.class,
  SubscriptionSubmitterConfig.class,
  SubscriptionProcessorConfig.class,
  SubscriptionChannelConfig.class,
  JpaBatch2Config.class,
  Batch2JobsConfig.class
})
public class FhirServer {
  public static void main(String[] args) {
    SpringApplication.run(FhirServer.class, args);
  }

  @Bean
  JpaStorageSettings jpaStorageSettings() {
    var settings = new JpaStorageSettings();
    settings.setResourceServerIdStrategy(JpaStorageSettings.IdStrategyEnum.UUID);
    settings.setAllowInlineMatchUrlReferences(true);
    settings.setHibernateSearchIndexFullText(false);
    return settings;
  }

  @Primary
  @Bean
  LocalContainerEntityManagerFactoryBean entityManagerFactory(
      JpaProperties jpa,
      DataSource source,
      ConfigurableListableBeanFactory beans,
      FhirContext context,
      JpaStorageSettings settings) {
    var factory = HapiEntityManagerFactoryUtil.newEntityManagerFactory(beans, context, settings);
    factory.setPersistenceUnitName("HAPI_PU");
    factory.setJpaPropertyMap(jpa.getProperties());
    factory.setDataSource(source);
    return factory;
  }

  @Primary
  @Bean
  HibernatePropertiesProvider dialectProvider(LocalContainerEntityManagerFactoryBean factory) {
    return new Dialects(factory);
  }

  @Primary
  @Bean
  JpaTransactionManager transactionManager(EntityManagerFactory factory) {
    return new JpaTransactionManager(factory);
  }

  @Bean
  RestfulServer restfulServer(
      IFhirSystemDao<?, ?> dao,
      IJpaSystemProvider system,
      ResourceProviderFactory providers,
      JpaStorageSettings settings,
      ISearchParamRegistry parameters,
      IValidationSupport support,
      DatabaseBackedPagingProvider paging) {
    var server = new RestfulServer(dao.getContext());
    server.registerProviders(providers.createProviders());
    server.registerProvider(system);
    server.setServerConformanceProvider(
        new JpaCapabilityStatementProvider(server, dao, settings, parameters, support));
    server.setDefaultResponseEncoding(EncodingEnum.JSON);
    server.setPagingProvider(paging);
    server.registerInterceptor(new UserRequestRetryVersionConflictsInterceptor());
    return server;
  }

  @Bean
  ServletRegistrationBean<RestfulServer> servlet(
      RestfulServer server, AutowireCapableBeanFactory beans) {
    beans.autowireBean(server);
    var bean = new ServletRegistrationBean<>(server, "/fhir/*");
    bean.setLoadOnStartup(1);
    return bean;
  }

  // What HAPI asks its host for, each as plain as it can be.

  @Bean
  IFulltextSearchSvc fullTextSearchSvc() {
    return new FulltextSearchSvcImpl();
  }

  @Bean
  IStaleSearchDeletingSvc staleSearchDeletingSvc() {
    return new StaleSearchDeletingSvcImpl();
  }

  @Bean
  DatabaseBackedPagingProvider databaseBackedPagingProvider() {
    return new DatabaseBackedPagingProvider();
  }

  @Bean
  IResourceSupportedSvc resourceSupportedSvc(IDaoRegistry registry) {
    return new DaoRegistryResourceSupportedSvc(registry);
  }

  @Bean(name = "myResourceCountsCache")
  ResourceCountCache resourceCountsCache(IFhirSystemDao<?, ?> dao) {
    return ResourceCountCacheUtil.newResourceCountCache(dao);
  }

  @Bean
  IHSearchSortHelper hSearchSortHelper(ISearchParamRegistry registry) {
    return new HSearchSortHelperImpl(registry);
  }

  @Bean
  IEmailSender emailSender() {
    return details -> {};
  }

  @Bean
  SubscriptionSettings subscriptionSettings() {
    return new SubscriptionSettings();
  }

  @Bean
  PartitionSettings partitionSettings() {
    return new PartitionSettings();
  }

  @Bean
  DatabaseBinaryContentStorageSvcImpl databaseBinaryStorageSvc() {
    return new DatabaseBinaryContentStorageSvcImpl();
  }
}
