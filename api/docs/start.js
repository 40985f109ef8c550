// Shows the document of this server. Nothing is asked of any other host: the badge
// that would have the document checked elsewhere is off.
globalThis.SwaggerUIBundle({
  dom_id: '#reference',
  url: `${location.origin}/openapi.json`,
  validatorUrl: null,
  deepLinking: true,
  defaultModelsExpandDepth: -1,
  displayRequestDuration: true,
  docExpansion: 'list',
  showCommonExtensions: true,
  showExtensions: true,
  tryItOutEnabled: true,
});
