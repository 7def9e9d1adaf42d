const PLACE = 'light';

export const LIGHTS = ['auto', 'light', 'dim'] as const;
export type Light = (typeof LIGHTS)[number];

/** How bright this device shows the page; as the device itself has it until somebody chooses. */
export function chosenLight(): Light {
  return LIGHTS.find((one) => one === localStorage.getItem(PLACE)) ?? 'auto';
}

/** Shows the page so, and keeps it on this device. */
export function setLight(light: Light): void {
  if (light === 'auto') localStorage.removeItem(PLACE);
  else localStorage.setItem(PLACE, light);
  showLight();
}

/** Shows the page as it was chosen on this device. */
export function showLight(): void {
  const light = chosenLight();
  if (light === 'auto') delete document.documentElement.dataset['light'];
  else document.documentElement.dataset['light'] = light;
}
