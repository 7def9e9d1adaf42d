/** Runs before a page: remembers what listens to clicks, so that what a pointer alone can work is found. */
(() => {
  window.clickedByPointer = new WeakSet();
  const { value: listen } = Object.getOwnPropertyDescriptor(EventTarget.prototype, 'addEventListener');
  EventTarget.prototype.addEventListener = function (type, ...rest) {
    if ((type === 'click' || type === 'pointerdown') && this instanceof Element) window.clickedByPointer.add(this);
    return listen.call(this, type, ...rest);
  };
})();
