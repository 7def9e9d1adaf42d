/** Names of the metals of the table. */
export const metals: Readonly<Record<string, string>> = {
  'Sterling silver': 'Sterlingsilber',
  'Fine silver': 'Feinsilber',
  'Britannia silver': 'Britanniasilber',
  'Germanium silver 935': 'Germaniumsilber 935',
  'Germanium silver 960': 'Germaniumsilber 960',
  'Brass, 70 copper 30 zinc': 'Messing, 70 Kupfer 30 Zink',
  'Brass, 65 copper 35 zinc': 'Messing, 65 Kupfer 35 Zink',
  'Nickel silver, 55 copper 27 zinc 18 nickel': 'Neusilber, 55 Kupfer 27 Zink 18 Nickel',
  'Stainless steel': 'Edelstahl',
};
