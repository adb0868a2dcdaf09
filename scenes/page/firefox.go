package page

// FirefoxOptions go into a fresh profile's user.js, so that Firefox shows the page here without asking or sending anything:
// a software renderer counts as WebGL.
const FirefoxOptions = `user_pref("webgl.force-enabled", true);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.aboutwelcome.enabled", false);
user_pref("browser.startup.homepage", "about:blank");
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("app.update.enabled", false);
`
