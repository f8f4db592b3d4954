import '../../styles/tokens.css';
import '../../styles/fonts.css';
import './form.css';
import { render } from 'preact';
import { App } from './app.tsx';

const place = document.querySelector('#form')!;
place.replaceChildren();
render(<App />, place);
