// Starts the preview's page.

import { render } from 'preact';
import { connectHost } from './host.ts';
import './page.css';
import { Pane } from './pane.tsx';

const root = document.getElementById('root');
if (root !== null) render(<Pane host={connectHost()} />, root);
