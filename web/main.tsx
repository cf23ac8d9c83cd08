import './strict.ts';
import { render } from 'preact';
import '@fontsource/atkinson-hyperlegible/400.css';
import '@fontsource/atkinson-hyperlegible/700.css';
import './styles/base.css';
import './styles/parts.css';
import './styles/pages.css';
import './styles/lists.css';
import './styles/phone.css';
import './styles/print.css';
import { App } from './app.tsx';
import { registerOffline } from './offline/register.ts';

const place = document.getElementById('app');
if (place !== null) render(<App />, place);
registerOffline();
