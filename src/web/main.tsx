import { render } from 'preact';
import { forgetLeftSamples } from './offline/book.ts';
import { App } from './shell/app.tsx';
import './styles/index.css';
import { showLight } from './ui/light.ts';

showLight();
void forgetLeftSamples();
render(<App />, document.body);
if ('serviceWorker' in navigator && window.isSecureContext) void navigator.serviceWorker.register('/service-worker.js');
