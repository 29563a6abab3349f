/** How the site lets this app log in at its authorization server. */
export interface SmartLogin {
  /** Under which the authorization server knows this app. */
  readonly clientId: string
  /** Scopes of SMART App Launch 2, with spaces between them. */
  readonly scope: string
  readonly tokenEndpoint: string
}

/** The same for a launch from a chart. */
export interface LaunchLogin extends SmartLogin {
  readonly authorizationEndpoint: string
}
